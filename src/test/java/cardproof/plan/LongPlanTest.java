package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.Jvm;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Plans of many vectors are never all in memory. */
class LongPlanTest {
  private static final long MANY = 10_000_000;

  @Test
  void aLongPlanCostsNothingUntilItIsGoneThrough() {
    Plan plan = GoThroughPlan.plan(1_000_000_000_000L);
    assertThat(plan.vectorCount()).isEqualTo(1_000_000_000_000L);
    VectorSource source = plan.vectors();
    Vector last = null;
    for (int i = 0; i < 100_000; i++) {
      last = source.next();
    }
    assertThat(last.number()).isEqualTo(99_999);
    assertThat(last.index()).isEqualTo(99_999);
    assertThat(source.hasNext()).isTrue();
  }

  /** 12 MB would hold little more than one byte of each. */
  @Test
  @Tag("long")
  @Timeout(value = 5, unit = TimeUnit.MINUTES)
  void tenMillionVectorsGoThroughTwelveMegabytes() throws Exception {
    List<String> command = Jvm.command(GoThroughPlan.class, "-Xmx12m");
    command.add(Long.toString(MANY));
    Process child =
        new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
    String printed = new String(child.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(child.waitFor()).isZero();
    assertThat(printed.strip()).isEqualTo(Long.toString(MANY));
  }
}
