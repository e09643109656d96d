package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.Jvm;
import cardproof.pty.Ptys;
import java.io.IOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What loading the native library leaves behind, seen in fresh processes. */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class LoadTest {
  private final List<Process> started = new ArrayList<>();

  @TempDir Path tmp;

  @AfterEach
  void endAll() throws Exception {
    for (Process process : started) {
      process.destroyForcibly().waitFor();
    }
  }

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @ParameterizedTest
  @CsvSource({"HUP, after", "HUP, before", "TERM, before", "INT, before"})
  void aSignalReachesTheProgramAfterLoading(String signal, String asked) throws Exception {
    Process process = start(List.of(), asked);
    assertThat(Jvm.awaitLine(process, "handled ")).isEqualTo("[INT, TERM, HUP]");
    assertThat(Jvm.awaitLine(process, "tmpdir kept ")).isEqualTo("true");
    Jvm.awaitLine(process, "library ");
    kill(signal, process);
    assertThat(Jvm.awaitLine(process, "got ")).isEqualTo(signal);
    assertThat(process.waitFor()).isEqualTo(3);
  }

  @Test
  void underNohupAHangUpStaysIgnored() throws Exception {
    Process process = start(List.of("/usr/bin/env", "nohup"), "before");
    assertThat(Jvm.awaitLine(process, "handled ")).isEqualTo("[INT, TERM]");
    Jvm.awaitLine(process, "library ");
    kill("HUP", process);
    kill("TERM", process);
    assertThat(Jvm.awaitLine(process, "got ")).isEqualTo("TERM");
    assertThat(process.waitFor()).isEqualTo(3);
  }

  @Test
  void theLibraryComesFromAPrivatePlaceThatIsGoneAtOnce() throws Exception {
    Process process = start(List.of(), "after");
    String library = Jvm.awaitLine(process, "library ");
    assertThat(library).startsWith(tmp.toRealPath() + "/cardproof-serial-").endsWith("(deleted)");
    assertThat(contents()).as("while it runs, so that a kill leaves nothing").isEmpty();
    process.destroyForcibly().waitFor();
    assertThat(contents()).isEmpty();
  }

  @Test
  void severalColdStartsAtOnceDoNotDisturbEachOther() throws Exception {
    List<Process> all = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      all.add(start(List.of(), "after"));
    }
    for (Process process : all) {
      assertThat(Jvm.awaitLine(process, "library ")).endsWith("(deleted)");
      kill("TERM", process);
      assertThat(process.waitFor()).isEqualTo(3);
    }
    assertThat(contents()).isEmpty();
  }

  @Test
  void thePrivatePlaceIsForThisUserAlone() throws IOException {
    PrivateDirectory place = PrivateDirectory.create("cardproof-test-");
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(place.path())))
        .isEqualTo("rwx------");
    Files.createDirectories(place.path().resolve("a/b"));
    Files.createFile(place.path().resolve("a/b/c"));
    place.close();
    assertThat(place.path()).doesNotExist();
    place.close();
  }

  private Process start(List<String> prefix, String asked) throws IOException {
    List<String> command = new ArrayList<>(prefix);
    command.addAll(Jvm.command(LoadTrial.class, "-Djava.io.tmpdir=" + tmp));
    command.add(asked);
    Process process = new ProcessBuilder(command).redirectError(Redirect.INHERIT).start();
    started.add(process);
    return process;
  }

  private static void kill(String signal, Process process) throws Exception {
    Process kill = new ProcessBuilder("kill", "-" + signal, "" + process.pid()).start();
    assertThat(kill.waitFor(10, TimeUnit.SECONDS)).isTrue();
    assertThat(kill.exitValue()).isZero();
  }

  /** Without what the virtual machine itself keeps there. */
  private List<Path> contents() throws IOException {
    try (var all = Files.list(tmp)) {
      return all.filter(path -> !path.getFileName().toString().startsWith("hsperfdata")).toList();
    }
  }
}
