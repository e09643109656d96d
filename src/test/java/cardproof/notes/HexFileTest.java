package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.OutsideTools;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * What flashing.md says of the hex file: it is built, is the same whatever folder it is built in,
 * and is Intel HEX whose every line checks (Intel, Hexadecimal Object File Format Specification,
 * 1988; from memory).
 */
class HexFileTest {
  private static final Path CODE = Page.FOLDER.resolve("reference");
  private static final String BUILD = "m328p";
  private static final int DATA = 0;
  private static final int END = 1;

  @TempDir private Path folder;

  private Path built(Path code, String name) throws Exception {
    Path out = folder.resolve(name);
    OutsideTools.call(
        folder.resolve(name + ".txt"), "make", "-C", code.toString(), "OUT=" + out, BUILD);
    return out.resolve(BUILD + ".hex");
  }

  private Path copied() throws IOException {
    Path copy = folder.resolve("elsewhere");
    try (Stream<Path> files = Files.walk(CODE)) {
      for (Path file : files.toList()) {
        Files.copy(file, copy.resolve(CODE.relativize(file).toString()));
      }
    }
    return copy;
  }

  @Test
  void theSameBytesWhereverItIsBuilt() throws Exception {
    OutsideTools.assumeInstalled(
        "compiler for the chips", "make gcc-avr avr-libc", "make", "avr-gcc", "avr-objcopy");
    Path hex = built(CODE, "one");
    assertThat(built(copied(), "two")).hasSameBinaryContentAs(hex);

    int next = 0;
    boolean ended = false;
    for (String line : Files.readAllLines(hex)) {
      assertThat(ended).as("a line behind the last").isFalse();
      byte[] bytes = HexFormat.of().withUpperCase().parseHex(line, 1, line.length());
      int sum = 0;
      for (byte b : bytes) {
        sum += b;
      }
      assertThat(sum & 0xFF).as(line).isZero();
      assertThat(bytes).hasSize(5 + bytes[0]);
      ended = bytes[3] == END;
      if (bytes[3] == DATA) {
        assertThat((bytes[1] & 0xFF) << 8 | bytes[2] & 0xFF).as("without a hole").isEqualTo(next);
        next += bytes[0];
      }
    }
    assertThat(ended).isTrue();
    Matcher flash =
        Pattern.compile("FLASH_" + BUILD + " := (\\d+)")
            .matcher(Files.readString(CODE.resolve("Makefile")));
    assertThat(flash.find()).isTrue();
    assertThat(next).isBetween(1000, Integer.parseInt(flash.group(1)));
    List<String> names = Page.read("flashing.md").text().lines().toList();
    assertThat(names).anyMatch(text -> text.contains("`" + BUILD + ".hex`"));
  }
}
