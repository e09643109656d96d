package cardproof.pty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The port opened as the plain file it is, so that no serial library is in between. */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class PtyPeerTest {
  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void bytesPassRawBothWaysThroughALink(@TempDir Path directory) throws Exception {
    try (PtyPeer peer = PtyPeer.start(Devices.echo())) {
      Path link = peer.link(directory, "fixture");
      byte[] control = {3, 4, 10, 13, 17, 19, 26, 28, 127, 0, -1};
      try (OutputStream out = Files.newOutputStream(link);
          InputStream in = Files.newInputStream(link)) {
        out.write(control);
        assertThat(in.readNBytes(control.length)).isEqualTo(control);
      }
    }
  }

  @Test
  void anAnswerIsNeverEarly() throws Exception {
    long delayNs = TimeUnit.MILLISECONDS.toNanos(30);
    try (PtyPeer peer = PtyPeer.start(new Answering(bytes -> new byte[] {9}, delayNs))) {
      Path port = Path.of(peer.port());
      try (OutputStream out = Files.newOutputStream(port);
          InputStream in = Files.newInputStream(port)) {
        long start = System.nanoTime();
        out.write(1);
        assertThat(in.read()).isEqualTo(9);
        assertThat(System.nanoTime() - start).isGreaterThanOrEqualTo(delayNs);
      }
    }
  }

  @Test
  void aStallingDeviceTakesExactlyItsFill() throws Exception {
    Recording device = new Recording(Devices.stallingAfter(100, Devices.silent()));
    try (PtyPeer peer = PtyPeer.start(device)) {
      try (OutputStream out = Files.newOutputStream(Path.of(peer.port()))) {
        out.write(new byte[1000]);
        assertThat(device.await(101, 100)).hasSize(100);
      }
    }
  }

  @Test
  void theDriverMayComeAndGo() throws Exception {
    Recording device = new Recording(Devices.silent());
    try (PtyPeer peer = PtyPeer.start(device)) {
      for (int i = 1; i <= 3; i++) {
        Files.write(Path.of(peer.port()), new byte[] {(byte) i});
        assertThat(device.await(i, 5000)).hasSize(i);
      }
    }
  }

  @Test
  void aDeviceThatFailsFailsTheTest() throws Exception {
    PtyPeer peer =
        PtyPeer.start(
            new Answering(
                bytes -> {
                  throw new IllegalStateException("tried");
                },
                0));
    Files.write(Path.of(peer.port()), new byte[] {1});
    peer.awaitEnd(5000);
    assertThatThrownBy(peer::close).hasRootCauseMessage("tried");
  }

  @Test
  void aPortIsGoneOnceItsPeerIs() {
    PtyPeer peer = PtyPeer.start(Devices.silent());
    assertThat(Path.of(peer.port())).exists();
    peer.close();
    assertThat(Path.of(peer.port())).doesNotExist();
  }

  @Test
  void aProcessServesAndEndsInOrder() throws Exception {
    try (PtyProcess process = PtyProcess.start(RepeatMaker.class, "3")) {
      Path port = Path.of(process.port());
      try (OutputStream out = Files.newOutputStream(port);
          InputStream in = Files.newInputStream(port)) {
        out.write(5);
        assertThat(in.readNBytes(3)).containsExactly(5, 5, 5);
      }
    }
  }

  /** Says the first byte of each run as often as its argument says. */
  public static final class RepeatMaker implements DeviceMaker {
    @Override
    public Device make(String... arguments) {
      int times = Integer.parseInt(arguments[0]);
      return new Answering(
          bytes -> {
            byte[] answer = new byte[times];
            Arrays.fill(answer, bytes[0]);
            return answer;
          },
          0);
    }
  }
}
