package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.Answering;
import cardproof.pty.Devices;
import cardproof.pty.PtyPeer;
import cardproof.pty.Ptys;
import cardproof.pty.Recording;
import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

@Timeout(value = 60, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
class RoundTripTest {
  private static final long LIMIT_NS = 10_000_000_000L;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 63, 64, 65, 511, 512, 513, 4095, 4096, 4097, 20_000, 200_000})
  void bytesComeBackWholeAndInOrder(int size) {
    byte[] sent = random(size);
    try (PtyPeer peer = PtyPeer.start(Devices.echo());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      wire.write(sent);
      assertThat(readFully(wire, size)).isEqualTo(sent);
    }
  }

  @Test
  void everyByteValuePassesUntouched() {
    byte[] sent = new byte[256];
    for (int i = 0; i < sent.length; i++) {
      sent[i] = (byte) i;
    }
    try (PtyPeer peer = PtyPeer.start(Devices.echo());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      wire.write(sent);
      assertThat(readFully(wire, sent.length)).isEqualTo(sent);
    }
  }

  @Test
  void aReaderWithLittleRoomGetsItInParts() {
    byte[] sent = random(1000);
    try (PtyPeer peer = PtyPeer.start(Devices.echo());
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      wire.write(sent);
      ByteArrayOutputStream got = new ByteArrayOutputStream();
      byte[] little = new byte[7];
      long deadlineNs = wire.nowNs() + LIMIT_NS;
      while (got.size() < sent.length && wire.nowNs() < deadlineNs) {
        got.write(little, 0, wire.read(little, deadlineNs));
      }
      assertThat(got.toByteArray()).isEqualTo(sent);
    }
  }

  @Test
  void aLinkToThePortServesAsWell(@TempDir Path directory) {
    try (PtyPeer peer = PtyPeer.start(Devices.echo())) {
      String link = peer.link(directory, "fixture").toString();
      try (SerialWire wire = SerialWire.open(link, 250_000)) {
        assertThat(wire.name()).isEqualTo(link);
        wire.write(new byte[] {1, 2, 3});
        assertThat(readFully(wire, 3)).containsExactly(1, 2, 3);
      }
    }
  }

  @Test
  void afterClosingThePortOpensAgainWithNothingLeftOver() throws Exception {
    Recording device = new Recording(new Answering(bytes -> bytes, 5_000_000));
    try (PtyPeer peer = PtyPeer.start(device)) {
      try (SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
        wire.write(random(300));
        assertThat(device.await(300, 5000)).hasSize(300);
        // The answer comes into a port that is closed or about to be.
      }
      try (SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
        byte[] into = new byte[400];
        wire.read(into, wire.nowNs() + 50_000_000);
        wire.write(new byte[] {42});
        byte[] got = readFully(wire, 1);
        assertThat(got).containsExactly(42);
      }
    }
  }

  @Test
  void whatWasWrittenJustBeforeClosingStillLeaves() throws Exception {
    byte[] last = random(512);
    Recording device = new Recording(Devices.silent());
    try (PtyPeer peer = PtyPeer.start(device)) {
      try (SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
        wire.write(last);
      }
      assertThat(device.await(last.length, 5000)).isEqualTo(last);
    }
  }

  @Test
  void theCallerMayReuseItsBuffer() throws Exception {
    byte[] buffer = {1, 2, 3};
    Recording device = new Recording(Devices.silent());
    try (PtyPeer peer = PtyPeer.start(device);
        SerialWire wire = SerialWire.open(peer.port(), 250_000)) {
      for (int i = 0; i < 500; i++) {
        buffer[0] = (byte) i;
        wire.write(buffer);
      }
      byte[] got = device.await(1500, 5000);
      assertThat(got).hasSize(1500);
      for (int i = 0; i < 500; i++) {
        assertThat(got[3 * i]).isEqualTo((byte) i);
      }
    }
  }

  static byte[] readFully(SerialWire wire, int size) {
    ByteArrayOutputStream got = new ByteArrayOutputStream();
    byte[] into = new byte[4096];
    long deadlineNs = wire.nowNs() + LIMIT_NS;
    while (got.size() < size && wire.nowNs() - deadlineNs < 0) {
      got.write(into, 0, wire.read(into, deadlineNs));
    }
    return got.toByteArray();
  }

  private static byte[] random(int size) {
    long seed = System.nanoTime();
    System.out.println("seed " + seed);
    byte[] bytes = new byte[size];
    new Random(seed).nextBytes(bytes);
    return bytes;
  }
}
