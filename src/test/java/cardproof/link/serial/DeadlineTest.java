package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.Answering;
import cardproof.pty.Devices;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import cardproof.pty.Recording;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Times on a loaded machine: never early, and late by no more than a generous tolerance. */
@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class DeadlineTest {
  private static final long MS = 1_000_000;
  private static final long LATE_NS = 250 * MS;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @ParameterizedTest
  @ValueSource(ints = {0, 1, 7, 50, 130, 300})
  void readEndsAtItsDeadline(int waitMs) {
    try (PtyPeer peer = PtyPeer.start(Devices.silent());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      long start = wire.nowNs();
      assertThat(wire.read(new byte[16], start + waitMs * MS)).isZero();
      assertThat(wire.nowNs() - start).isBetween(waitMs * MS, waitMs * MS + LATE_NS);
    }
  }

  @Test
  void aDeadlineInThePastDoesNotWait() {
    try (PtyPeer peer = PtyPeer.start(Devices.silent());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      long start = wire.nowNs();
      assertThat(wire.read(new byte[16], start - 1000 * MS)).isZero();
      assertThat(wire.nowNs() - start).isLessThan(LATE_NS);
    }
  }

  @Test
  void readEndsAsSoonAsBytesCome() {
    try (PtyPeer peer = PtyPeer.start(new Answering(bytes -> bytes, 40 * MS));
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      long start = wire.nowNs();
      wire.write(new byte[] {1, 2, 3});
      assertThat(wire.read(new byte[16], start + 5000 * MS)).isBetween(1, 3);
      assertThat(wire.nowNs() - start).isBetween(40 * MS, 40 * MS + LATE_NS);
    }
  }

  @Test
  void anInterruptEndsNoWaitAndIsKept() {
    try (PtyPeer peer = PtyPeer.start(Devices.silent());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      Thread.currentThread().interrupt();
      long start = wire.nowNs();
      assertThat(wire.read(new byte[16], start + 60 * MS)).isZero();
      assertThat(wire.nowNs() - start).isGreaterThanOrEqualTo(60 * MS);
      assertThat(Thread.interrupted()).isTrue();
    }
  }

  @Test
  void theFrameIsRepeatedEveryPeriodUntilTheLeaseEnds() throws Exception {
    Recording device = new Recording(Devices.silent());
    try (PtyPeer peer = PtyPeer.start(device);
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      wire.write(new byte[] {9});
      assertThat(device.await(1, 5000)).containsExactly(9);
      long start = wire.nowNs();
      wire.keepAlive(new byte[] {5}, 100 * MS, start + 650 * MS);
      assertThat(device.await(7, 5000)).containsExactly(9, 5, 5, 5, 5, 5, 5);
      assertThat(wire.nowNs() - start).isBetween(500 * MS, 650 * MS + LATE_NS);
      assertThat(device.await(8, 400)).as("none after the lease").hasSize(7);
      assertThat(gapsNs(device))
          .hasSize(6)
          .allSatisfy(gap -> assertThat(gap).isGreaterThan(50 * MS));
    }
  }

  @Test
  void writingPutsTheRepetitionOff() throws Exception {
    Recording device = new Recording(Devices.silent());
    try (PtyPeer peer = PtyPeer.start(device);
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      wire.keepAlive(new byte[] {5}, 400 * MS, wire.nowNs() + 5000 * MS);
      long start = wire.nowNs();
      while (wire.nowNs() - start < 700 * MS) {
        wire.write(new byte[] {1});
        wire.read(new byte[1], wire.nowNs() + 20 * MS);
      }
      int written = device.await(Integer.MAX_VALUE, 50).length;
      assertThat(device.await(written, 1)).containsOnly(1);
      assertThat(device.await(written + 1, 3000)).endsWith(5);
    }
  }

  private static List<Long> gapsNs(Recording device) {
    List<Recording.Arrival> arrivals = device.arrivals();
    List<Long> gaps = new ArrayList<>();
    for (int i = 1; i < arrivals.size(); i++) {
      gaps.add(arrivals.get(i).atNs() - arrivals.get(i - 1).atNs());
    }
    return gaps;
  }
}
