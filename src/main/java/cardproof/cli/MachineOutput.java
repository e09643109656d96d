package cardproof.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * Standard output for other programs: UTF-8 whatever the locale (RFC 8259, section 8.1, demands it
 * of JSON), and not sent line by line.
 */
final class MachineOutput {
  private MachineOutput() {}

  static boolean isAskedFor(String... args) {
    List<String> words = List.of(args);
    return words.contains("--json") || words.contains("--csv");
  }

  static PrintWriter open() {
    FileOutputStream standardOutput = new FileOutputStream(FileDescriptor.out);
    return new PrintWriter(new OutputStreamWriter(standardOutput, StandardCharsets.UTF_8));
  }
}
