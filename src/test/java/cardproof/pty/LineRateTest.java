package cardproof.pty;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class LineRateTest {
  private static final long US = 1_000;

  private final byte[] into = new byte[64];
  private final Device device =
      new LineRate(new Answering(bytes -> bytes, 100 * US), 250_000); // 40 us a byte

  @Test
  void aByteLeavesWhenItsLastBitWould() {
    device.receive(new byte[] {1, 2, 3}, 3, 0);
    assertThat(device.nextDueNs()).isEqualTo(100 * US);
    assertThat(device.produce(into, 100 * US)).isZero();
    assertThat(device.nextDueNs()).isEqualTo(140 * US);
    assertThat(device.produce(into, 140 * US)).isEqualTo(1);
    assertThat(into[0]).isEqualTo((byte) 1);
    assertThat(device.produce(into, 179 * US)).isZero();
    assertThat(device.produce(into, 1000 * US)).isEqualTo(2);
    assertThat(into).startsWith(2, 3);
    assertThat(device.nextDueNs()).isEqualTo(Device.NEVER);
  }

  @Test
  void whatIsDueWhileTheLineIsBusyWaitsItsTurn() {
    device.receive(new byte[] {1, 2}, 2, 0);
    device.receive(new byte[] {3}, 1, 10 * US);
    int count = 0;
    long lastNs = 0;
    for (long nowNs = 0; nowNs <= 400 * US; nowNs += 10 * US) {
      int got = device.produce(into, nowNs);
      count += got;
      lastNs = got > 0 ? nowNs : lastNs;
    }
    assertThat(count).isEqualTo(3);
    assertThat(lastNs).isEqualTo(220 * US);
  }

  @Test
  void aPauseIsNoCredit() {
    device.receive(new byte[] {1}, 1, 0);
    assertThat(device.produce(into, 140 * US)).isEqualTo(1);
    device.receive(new byte[] {2, 3}, 2, 10_000 * US);
    assertThat(device.produce(into, 10_100 * US)).isZero();
    assertThat(device.produce(into, 10_140 * US)).isEqualTo(1);
    assertThat(device.produce(into, 10_180 * US)).isEqualTo(1);
  }
}
