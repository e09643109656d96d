package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import cardproof.pty.Devices;
import cardproof.pty.Jvm;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import java.io.File;
import java.io.IOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * A port without permission, tried from a process that is not root: root may open anything. Such a
 * process sees the jars only where anybody may read them, so they are copied.
 */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class PermissionTest {
  private static final boolean ROOT = "root".equals(System.getProperty("user.name"));
  private static final Path SETPRIV = Path.of("/usr/bin/setpriv");

  @TempDir Path directory;

  @BeforeEach
  void onlyWhereItCanBeTried() {
    Ptys.assumeAvailable();
    assumeTrue(
        !ROOT || Files.isExecutable(SETPRIV),
        "skipped: root without setpriv (util-linux) to drop it");
  }

  @Test
  void aPortWithoutPermissionSaysWhoMayAndHowToBecomeOne() throws Exception {
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      Path port = Path.of(peer.port());
      Files.setPosixFilePermissions(port, PosixFilePermissions.fromString("---rw----"));
      String group = DeviceAccess.of(port).group();
      Process trial = unprivileged(PortTrial.class, peer.port());
      String said = Jvm.awaitLine(trial, "trial ");
      assertThat(said)
          .startsWith(peer.port() + ": user ")
          .contains("may not open it", "group " + group, "---rw----")
          .contains("wanted permission to read and write")
          .contains(group.equals("root") ? "udev rule" : "usermod -aG " + group);
      assertThat(trial.waitFor()).isZero();
    }
  }

  private Process unprivileged(Class<?> main, String argument) throws IOException {
    List<String> command = new ArrayList<>();
    if (ROOT) {
      command.addAll(List.of(SETPRIV.toString(), "--reuid=65534", "--regid=65534"));
      command.add("--clear-groups");
    }
    List<String> java = new ArrayList<>(Jvm.command(main));
    java.set(java.indexOf("-cp") + 1, readableClassPath());
    command.addAll(java);
    command.add(argument);
    return new ProcessBuilder(command)
        .directory(new File("/"))
        .redirectError(Redirect.INHERIT)
        .start();
  }

  private String readableClassPath() throws IOException {
    if (!ROOT) {
      return Jvm.classPath();
    }
    Files.setPosixFilePermissions(directory, PosixFilePermissions.fromString("rwxr-xr-x"));
    List<String> copies = new ArrayList<>();
    int number = 0;
    for (String entry : Jvm.classPath().split(File.pathSeparator)) {
      Path copy = directory.resolve("part" + number++ + (entry.endsWith(".jar") ? ".jar" : ""));
      copy(Path.of(entry), copy);
      copies.add(copy.toString());
    }
    return String.join(File.pathSeparator, copies);
  }

  private static void copy(Path from, Path to) throws IOException {
    if (Files.isRegularFile(from)) {
      if (Files.size(from) < 5_000_000) { // the large ones hold databases, not ports
        Files.copy(from, to);
      }
      return;
    }
    try (var all = Files.walk(from)) {
      for (Path each : all.toList()) {
        Files.copy(each, to.resolve(from.relativize(each).toString()));
      }
    }
  }
}
