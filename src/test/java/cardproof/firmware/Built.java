package cardproof.firmware;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Assumptions;

/** What the firmware's tests run, built once in a test run with the tools of this machine. */
final class Built {
  static final Path FOLDER = Path.of("target", "firmware").toAbsolutePath();
  private static final Path BENCH = Path.of("target", "chip", "chip-bench").toAbsolutePath();
  private static boolean firmware;
  private static boolean bench;

  private Built() {}

  /** The firmware's ELF file, or the test is left out with a reason. */
  static synchronized Path elf(Chip chip) {
    needs("make", "avr-gcc", "avr-nm", "avr-size");
    if (!firmware) {
      makeIn("firmware-notes/reference", "m2560", "m328p", "m328p-shift");
      firmware = true;
    }
    return FOLDER.resolve(chip.target + ".elf");
  }

  /** The simulated chip's program, or the test is left out with a reason. */
  static synchronized Path bench() {
    needs("make", "gcc");
    needsHeader(Path.of("/usr/include/simavr/sim_avr.h"), "libsimavr-dev");
    if (!bench) {
      makeIn("src/test/chip");
      bench = true;
    }
    return BENCH;
  }

  /** A program to prove the simulated chip by, or the test is left out with a reason. */
  static synchronized Path probe(String name) {
    needs("make", "avr-gcc", "avr-nm");
    makeIn("src/test/chip", "probes");
    return BENCH.resolveSibling("probe-" + name + ".elf");
  }

  /** Where a symbol of the ELF file lies in the chip's memory. */
  static int address(Path elf, String symbol) {
    for (String line : run(List.of("avr-nm", elf.toString())).split("\n")) {
      String[] parts = line.split(" ");
      if (parts.length == 3 && parts[2].equals(symbol)) {
        return (int) (Long.parseLong(parts[0], 16) & 0xFFFF);
      }
    }
    throw new AssertionError(elf + " has no " + symbol);
  }

  static long sectionBytes(Path elf, String section) {
    for (String line : run(List.of("avr-size", "-A", elf.toString())).split("\n")) {
      String[] parts = line.trim().split("\\s+");
      if (parts.length == 3 && parts[0].equals(section)) {
        return Long.parseLong(parts[1]);
      }
    }
    throw new AssertionError(elf + " has no " + section);
  }

  static String run(List<String> words) {
    try {
      Process process = new ProcessBuilder(words).redirectErrorStream(true).start();
      process.getOutputStream().close();
      String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      if (process.waitFor() != 0) {
        throw new AssertionError(words + " failed:\n" + out);
      }
      return out;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  /** What the firmware's makefile says of these targets, which have to succeed. */
  static String make(String... targets) {
    needs("make", "gcc", "avr-gcc", "avr-size");
    return makeIn("firmware-notes/reference", targets);
  }

  private static String makeIn(String folder, String... targets) {
    List<String> words = new ArrayList<>(List.of("make", "-C", folder));
    words.addAll(List.of(targets));
    return run(words);
  }

  static void needs(String... programs) {
    for (String program : programs) {
      boolean there =
          List.of(System.getenv("PATH").split(":")).stream()
              .anyMatch(folder -> Path.of(folder, program).toFile().canExecute());
      leaveOut(there, program);
    }
  }

  private static void needsHeader(Path header, String of) {
    leaveOut(Files.exists(header), of);
  }

  private static void leaveOut(boolean there, String what) {
    if (!there && "1".equals(System.getenv("CARDPROOF_REQUIRE_TOOLS"))) {
      throw new AssertionError(what + " is required on this machine");
    }
    if (!there) {
      System.out.println("left out: " + what + " is not on this machine");
    }
    Assumptions.assumeTrue(there, what + " is not on this machine");
  }
}
