package cardproof.bits;

import cardproof.OutsideTools;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Icarus Verilog, a simulator for IEEE 1364-2005 that knows nothing of this project. */
final class VerilogSimulator {
  private final Path directory;

  VerilogSimulator(Path directory) {
    this.directory = directory;
  }

  /** Skips the test, saying why, where it is not installed; fails where it has to be. */
  static void assumeInstalled() {
    OutsideTools.assumeInstalled("Verilog simulator", "iverilog", "iverilog", "vvp");
  }

  /** Compiles one file of Verilog and runs it, and returns the lines it printed. */
  List<String> run(String source) throws IOException, InterruptedException {
    Path text = Files.writeString(directory.resolve("trial.v"), source);
    Path compiled = directory.resolve("trial.vvp");
    call("iverilog", "-g2005", "-o", compiled.toString(), text.toString());
    return call("vvp", "-n", compiled.toString());
  }

  private List<String> call(String... command) throws IOException, InterruptedException {
    return OutsideTools.call(directory.resolve("written.txt"), command);
  }
}
