package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.util.Arrays;
import org.junit.jupiter.api.Test;

class OutboxTest {
  private static final long MS = 1_000_000;
  private static final byte[] BEAT = {7, 7, 0};

  private final byte[] into = new byte[8];
  private final Outbox outbox = new Outbox(64, 8, 0);

  @Test
  void writesInOrderAndPutsShortFramesTogether() {
    outbox.add(new byte[] {1, 2, 3});
    outbox.add(new byte[] {4, 5});
    assertThat(outbox.next(into, 0)).isEqualTo(5);
    assertThat(into).startsWith(1, 2, 3, 4, 5);
    assertThat(outbox.next(into, 0)).isZero();
  }

  @Test
  void cutsLongFramesIntoPieces() {
    byte[] frame = new byte[19];
    for (int i = 0; i < frame.length; i++) {
      frame[i] = (byte) i;
    }
    outbox.add(frame);
    assertThat(outbox.room()).isEqualTo(64 - 19);
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    int[] sizes = new int[3];
    for (int i = 0; i < 3; i++) {
      sizes[i] = outbox.next(into, 0);
      all.write(into, 0, sizes[i]);
    }
    assertThat(sizes).containsExactly(8, 8, 3);
    assertThat(all.toByteArray()).isEqualTo(frame);
    assertThat(outbox.isEmpty()).isTrue();
    assertThat(outbox.room()).isEqualTo(64);
  }

  @Test
  void repeatsTheFrameInSilenceUntilTheLeaseEnds() {
    outbox.keepAlive(BEAT, 250 * MS, 800 * MS);
    assertThat(outbox.waitNs(0)).isEqualTo(250 * MS);
    assertThat(outbox.next(into, 250 * MS - 1)).isZero();
    assertThat(outbox.next(into, 250 * MS)).isEqualTo(3);
    assertThat(Arrays.copyOf(into, 3)).isEqualTo(BEAT);
    assertThat(outbox.next(into, 500 * MS)).isEqualTo(3);
    assertThat(outbox.next(into, 750 * MS)).isEqualTo(3);
    assertThat(outbox.waitNs(750 * MS)).as("none left to send").isEqualTo(Outbox.FOREVER);
    assertThat(outbox.next(into, 1000 * MS)).isZero();
  }

  @Test
  void whatIsWrittenCountsAsASignOfLife() {
    outbox.keepAlive(BEAT, 250 * MS, 800 * MS);
    outbox.add(new byte[] {1});
    assertThat(outbox.next(into, 200 * MS)).isEqualTo(1);
    assertThat(outbox.next(into, 449 * MS)).isZero();
    assertThat(outbox.next(into, 450 * MS)).isEqualTo(3);
  }

  @Test
  void renewingTheLeaseOftenDoesNotPutTheFrameOff() {
    int sent = 0;
    for (long nowNs = 0; nowNs < 1000 * MS; nowNs += 10 * MS) {
      outbox.keepAlive(BEAT, 250 * MS, nowNs + 100 * MS);
      sent += outbox.next(into, nowNs) > 0 ? 1 : 0;
    }
    assertThat(sent).isEqualTo(3);
  }

  @Test
  void anEndedLeaseSendsNothingHoweverLongTheLineWasBusy() {
    outbox.keepAlive(BEAT, 250 * MS, 800 * MS);
    assertThat(outbox.next(into, 800 * MS)).isZero();
    outbox.keepAlive(BEAT, 250 * MS, 2000 * MS);
    assertThat(outbox.next(into, 900 * MS)).as("a new lease, long overdue").isEqualTo(3);
  }

  @Test
  void survivesAClockThatWraps() {
    long start = Long.MAX_VALUE - 10 * MS;
    Outbox late = new Outbox(64, 8, start);
    late.keepAlive(BEAT, 20 * MS, start + 100 * MS);
    assertThat(late.waitNs(start)).isEqualTo(20 * MS);
    assertThat(late.next(into, start + 20 * MS)).isEqualTo(3);
    assertThat(late.next(into, start + 100 * MS)).isZero();
  }
}
