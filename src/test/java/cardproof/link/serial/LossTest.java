package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import cardproof.link.LinkException;
import cardproof.pty.Device;
import cardproof.pty.DeviceMaker;
import cardproof.pty.Devices;
import cardproof.pty.PtyPeer;
import cardproof.pty.PtyProcess;
import cardproof.pty.Ptys;
import cardproof.pty.Recording;
import java.util.List;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class LossTest {
  private static final long MS = 1_000_000;

  /** Promised to the user of a wire. */
  private static final long SEEN_NS = 2000 * MS;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void aDeviceThatGoesIsSeenWhileReading() {
    try (PtyPeer peer = PtyPeer.start(Devices.silent());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      long start = wire.nowNs();
      Thread puller = new Thread(peer::hangUp);
      puller.start();
      LinkException e = fails(() -> wire.read(new byte[16], start + 10_000 * MS));
      assertThat(wire.nowNs() - start).isLessThan(SEEN_NS);
      assertThat(e.problem().where()).isEqualTo(peer.port());
      assertThat(e.problem().found()).contains("gone");
      assertThat(e.problem().next()).contains("cable");
    }
  }

  @Test
  void aDeviceThatGoesIsSeenWhileWriting() {
    try (PtyPeer peer = PtyPeer.start(Devices.silent());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      peer.hangUp();
      long start = wire.nowNs();
      fails(
          () -> {
            while (wire.nowNs() - start < SEEN_NS) {
              wire.write(new byte[] {1});
            }
          });
      assertThatThrownBy(() -> wire.keepAlive(new byte[] {1}, MS, start + MS))
          .isInstanceOf(LinkException.class);
    }
  }

  @Test
  void aKilledProcessIsSeen() {
    try (PtyProcess process = PtyProcess.start(EchoMaker.class);
        SerialWire wire = SerialWire.open(process.port(), 250_000)) {
      wire.write(new byte[] {1, 2});
      assertThat(RoundTripTest.readFully(wire, 2)).containsExactly(1, 2);
      long start = wire.nowNs();
      process.kill();
      fails(() -> wire.read(new byte[16], start + 10_000 * MS));
      assertThat(wire.nowNs() - start).isLessThan(SEEN_NS);
    }
  }

  @Test
  void aDeviceThatStopsReadingFailsTheWriteAndTheWireStillCloses() {
    try (PtyPeer peer = PtyPeer.start(Devices.stallingAfter(1000, Devices.silent()))) {
      SerialWire wire = SerialWire.open(peer.port(), 250_000);
      long start = wire.nowNs();
      LinkException e = fails(() -> wire.write(new byte[1_000_000]));
      assertThat(wire.nowNs() - start).isBetween(1000 * MS, 1000 * MS + SEEN_NS);
      assertThat(e.problem().found()).contains("taken nothing for 1000 ms");
      long closing = wire.nowNs();
      wire.close();
      assertThat(wire.nowNs() - closing).isLessThan(SEEN_NS);
      assertThat(threadsOf(peer.port())).isEmpty();
    }
  }

  @Test
  void aStuckLineIsSeenByOneWhoOnlyReads() throws Exception {
    Recording device = new Recording(Devices.stallingAfter(1000, Devices.silent()));
    try (PtyPeer peer = PtyPeer.start(device);
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      wire.write(new byte[16 * 1024]);
      wire.write(new byte[8 * 1024]);
      assertThat(device.await(1000, 5000)).hasSize(1000);
      long start = wire.nowNs();
      LinkException e = fails(() -> wire.read(new byte[16], start + 10_000 * MS));
      assertThat(wire.nowNs() - start).isLessThan(SEEN_NS);
      assertThat(e.problem().found()).contains("taken nothing");
    }
  }

  @Test
  void closingTwiceIsFineAndUseAfterwardsIsRefused() {
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      SerialWire wire = SerialWire.open(peer.port(), 250_000);
      wire.close();
      wire.close();
      assertThat(threadsOf(peer.port())).isEmpty();
      assertThat(fails(() -> wire.write(new byte[] {1})).problem().found()).contains("closed");
      assertThat(fails(() -> wire.read(new byte[1], 0)).problem().found()).contains("closed");
    }
  }

  @Test
  void closingFromAnotherThreadEndsAWait() throws Exception {
    try (PtyPeer peer = PtyPeer.start(Devices.silent())) {
      SerialWire wire = SerialWire.open(peer.port(), 250_000);
      long start = wire.nowNs();
      Thread closer = new Thread(wire::close);
      closer.start();
      fails(() -> wire.read(new byte[16], start + 10_000 * MS));
      closer.join(5000);
      assertThat(wire.nowNs() - start).isLessThan(SEEN_NS);
    }
  }

  @Test
  void garbageIsPassedOnAndHarmless() {
    try (PtyPeer peer = PtyPeer.start(Devices.garbage(7, 200, MS));
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      assertThat(RoundTripTest.readFully(wire, 20_000)).hasSizeGreaterThanOrEqualTo(20_000);
    }
  }

  @Test
  void aTalkerNobodyListensToDoesNotKeepTheWireFromClosing() throws Exception {
    try (PtyPeer peer = PtyPeer.start(Devices.garbage(7, 4096, 100_000))) {
      SerialWire wire = SerialWire.open(peer.port(), 250_000);
      wire.read(new byte[1], wire.nowNs() + 2000 * MS);
      wire.close();
      assertThat(threadsOf(peer.port())).isEmpty();
    }
  }

  /** In another process. */
  public static final class EchoMaker implements DeviceMaker {
    @Override
    public Device make(String... arguments) {
      return Devices.echo();
    }
  }

  private static LinkException fails(ThrowingCallable call) {
    LinkException e = catchThrowableOfType(LinkException.class, call);
    assertThat(e).as("a LinkException").isNotNull();
    return e;
  }

  private static List<String> threadsOf(String port) {
    return Thread.getAllStackTraces().keySet().stream()
        .map(Thread::getName)
        .filter(name -> name.startsWith("serial ") && name.endsWith(port))
        .toList();
  }
}
