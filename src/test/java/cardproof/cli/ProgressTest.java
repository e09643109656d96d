package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(value = 20, unit = TimeUnit.SECONDS, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
final class ProgressTest {
  private static final long SECOND_NS = 1_000_000_000L;

  private long nowNs;

  private Progress progress(Writer err, boolean terminal) {
    return new Progress(
        new Screen(new PrintWriter(new StringWriter()), new PrintWriter(err), terminal, false),
        () -> nowNs,
        "vectors",
        100);
  }

  @Test
  void aLineNowAndThenWithHowFarAndHowLongStill() {
    StringWriter err = new StringWriter();
    Progress progress = progress(err, false);
    progress.at(1, "");
    nowNs = 20 * SECOND_NS;
    progress.at(40, "2 did not pass");
    progress.done();
    assertThat(err.toString())
        .isEqualTo(
            "############..................  40 of 100 vectors  2.0/s  0:30 left"
                + "  2 did not pass"
                + System.lineSeparator());
  }

  @Test
  void onATerminalItIsTakenAwayAtTheEnd() {
    StringWriter err = new StringWriter();
    Progress progress = progress(err, true);
    nowNs = 2 * SECOND_NS;
    progress.at(50, "");
    progress.done();
    assertThat(err.toString()).startsWith("\r###").endsWith("\r\u001b[K");
  }

  /** As a terminal does after Ctrl-S, and a pipe whose reader has stopped. */
  @Test
  void nobodyWaitsForAWriterThatDoesNotTakeAnything() throws InterruptedException {
    CountDownLatch writing = new CountDownLatch(1);
    CountDownLatch held = new CountDownLatch(1);
    StringWriter taken = new StringWriter();
    Progress progress = progress(new HeldWriter(writing, held, taken), false);
    for (int i = 1; i <= 50; i++) {
      nowNs = i * 20 * SECOND_NS;
      progress.at(i, "");
      if (i == 1) {
        writing.await();
      }
    }
    held.countDown();
    progress.done();
    assertThat(taken.toString()).contains("1 of 100").doesNotContain("49 of 100");
  }

  /** Takes nothing before it is let go on. */
  private static final class HeldWriter extends Writer {
    private final CountDownLatch writing;
    private final CountDownLatch held;
    private final StringWriter taken;

    HeldWriter(CountDownLatch writing, CountDownLatch held, StringWriter taken) {
      this.writing = writing;
      this.held = held;
      this.taken = taken;
    }

    @Override
    public void write(char[] text, int from, int length) {
      writing.countDown();
      try {
        held.await();
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
      taken.write(text, from, length);
    }

    @Override
    public void flush() {}

    @Override
    public void close() {}
  }
}
