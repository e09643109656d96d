package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import cardproof.link.LinkException;
import cardproof.pty.Devices;
import cardproof.pty.Jvm;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import cardproof.text.Problem;
import java.lang.ProcessBuilder.Redirect;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class RefusalTest {
  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void aPortThatIsNotThere() {
    Problem problem = refusal("/dev/ttyGULL0");
    assertThat(problem.where()).isEqualTo("/dev/ttyGULL0");
    assertThat(problem.found()).isEqualTo("there is no such port");
    assertThat(problem.wanted()).isNotEmpty();
    for (String known : SerialPorts.names()) {
      assertThat(problem.next()).contains(known);
    }
    assertThat(refusal("no\0name").found()).isEqualTo("there is no such port");
  }

  @Test
  void aLinkToNowhere(@TempDir Path directory) throws Exception {
    Path link = Files.createSymbolicLink(directory.resolve("fixture"), Path.of("../gone/ttyACM0"));
    Problem problem = refusal(link.toString());
    assertThat(problem.where()).isEqualTo(link.toString());
    assertThat(problem.found()).contains("link to", "gone/ttyACM0", "not there");
    assertThat(problem.next()).contains("Plug the board in");
  }

  @Test
  void aLinkWhosePortWentAwayAndCameBack(@TempDir Path directory) throws Exception {
    Path link;
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      link = peer.link(directory, "fixture");
      SerialWire.open(link.toString(), 250_000).close();
    }
    assertThat(refusal(link.toString()).found()).contains("not there");
    Files.delete(link);
    try (PtyPeer peer = PtyPeer.start(Devices.echo())) {
      peer.link(directory, "fixture");
      try (SerialWire wire = SerialWire.open(link.toString(), 250_000)) {
        wire.write(new byte[] {3});
        assertThat(RoundTripTest.readFully(wire, 1)).containsExactly(3);
      }
    }
  }

  @Test
  void thingsThatAreNoPort(@TempDir Path directory) throws Exception {
    assertThat(refusal(directory.toString()).found()).contains("a directory");
    Path file = Files.createFile(directory.resolve("plan.yaml"));
    assertThat(refusal(file.toString()).found()).contains("no device");
    assertThat(refusal("/dev/null").found()).contains("another kind");
  }

  @Test
  void aPortThatThisProgramHasOpenAlready() {
    try (PtyPeer peer = PtyPeer.start(Devices.echo());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      Problem problem = refusal(peer.port());
      assertThat(problem.found()).contains("has it open");
      wire.write(new byte[] {3});
      assertThat(RoundTripTest.readFully(wire, 1)).as("undisturbed").containsExactly(3);
    }
  }

  @Test
  void aPortThatAnotherProcessHasOpen() throws Exception {
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      List<String> command = new ArrayList<>(Jvm.command(PortHolder.class));
      command.add(peer.port());
      Process holder = new ProcessBuilder(command).redirectError(Redirect.INHERIT).start();
      try {
        assertThat(Jvm.awaitLine(holder, "open ")).isEqualTo(peer.port());
        long start = System.nanoTime();
        Problem problem = refusal(peer.port());
        assertThat(System.nanoTime() - start).isLessThan(TimeUnit.SECONDS.toNanos(2));
        assertThat(problem.where()).isEqualTo(peer.port());
        assertThat(problem.found()).isEqualTo("process " + holder.pid() + " (java) has it open");
        assertThat(problem.next()).contains("End that program");
      } finally {
        holder.getOutputStream().close();
        assertThat(holder.waitFor(10, TimeUnit.SECONDS)).isTrue();
      }
      // the driver's own answer, where it cannot be found out who holds the lock
      assertThat(PortOpener.failure(peer.port(), Errno.EAGAIN_LINUX).found())
          .contains("another program has it open");
      SerialWire.open(peer.port(), 250_000).close();
    }
  }

  @Test
  void whatTheDriverReportsIsTranslated() {
    // Error numbers of Linux, errno(3).
    assertThat(PortOpener.failure("/dev/null", 16).found()).contains("has it open");
    assertThat(PortOpener.failure("/dev/null", 13).found())
        .contains("may not open it", "/dev/null");
    assertThat(PortOpener.failure("/dev/null", 6).found()).contains("no such port");
    assertThat(PortOpener.failure("/dev/null", 5).found()).contains("gone");
    assertThat(PortOpener.failure("/dev/null", 25).found()).contains("another kind");
    assertThat(PortOpener.failure("/dev/null", 77).found()).contains("77");
  }

  private static Problem refusal(String port) {
    LinkException e =
        catchThrowableOfType(LinkException.class, () -> SerialWire.open(port, 250_000).close());
    assertThat(e).as("opening %s", port).isNotNull();
    return e.problem();
  }
}
