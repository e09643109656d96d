package cardproof.timing.intermittent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.log.BenchLog;
import cardproof.log.PowerOn;
import cardproof.log.RunEnd;
import cardproof.log.RunFilter;
import cardproof.log.RunSummary;
import cardproof.log.RunWriter;
import cardproof.log.SumCard;
import cardproof.log.UnitId;
import cardproof.log.Verdict;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.IntPredicate;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class FailureHistoryTest {
  private static final UnitId UNIT = UnitId.real("sum", "03");

  @TempDir Path directory;
  private BenchLog log;

  @BeforeEach
  void open() {
    log = BenchLog.open(directory.resolve("sum.bench"), SumCard.CLOCK);
  }

  @AfterEach
  void close() {
    log.close();
  }

  private void run(int vectors, PowerOn.How how, IntPredicate fails) {
    try (RunWriter writer = log.begin(SumCard.start(UNIT))) {
      writer.step(SumCard.step(0));
      writer.powerOn(new PowerOn(0, how));
      for (int i = 0; i < vectors; i++) {
        writer.append(SumCard.judged(i, fails.test(i) ? Verdict.WRONG : Verdict.PASS));
      }
      writer.append(SumCard.judged(vectors, Verdict.UNTESTED));
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
    }
  }

  private FailureHistory history() {
    List<RunSummary> runs = new ArrayList<>(log.runs(RunFilter.of(UNIT)));
    Collections.reverse(runs);
    return FailureHistory.of(log, runs);
  }

  /**
   * 59 and 299 of the table of S. S. Wilks, "Determination of sample sizes" (1941): 5 % and 1 %.
   */
  @Test
  void noFailureBoundsWhatMayFail() {
    run(59, PowerOn.How.BY_HAND, i -> false);
    FailureHistory some = history();
    assertThat(some.judged()).as("the untested one is none").isEqualTo(59);
    assertThat(some.mostOfVectors()).isLessThan(0.05).isCloseTo(0.05, within(5e-4));
    run(240, PowerOn.How.FOUND_ON, i -> false);
    FailureHistory more = history();
    assertThat(more.mostOfVectors()).isLessThan(0.01).isCloseTo(0.01, within(5e-5));
    assertThat(more.sessions()).as("found on is no new session").isEqualTo(1);
  }

  @Test
  void sessionsAreCountedByThePower() {
    run(20, PowerOn.How.BY_HAND, i -> i == 7);
    run(20, PowerOn.How.FOUND_ON, i -> i == 9);
    run(20, PowerOn.How.BY_FIXTURE, i -> false);
    FailureHistory history = history();
    assertThat(history.sessions()).isEqualTo(2);
    assertThat(history.failedSessions()).isEqualTo(1);
    assertThat(history.failed()).isEqualTo(2);
    assertThat(history.vectors())
        .containsExactly(new VectorFailures(7, 1, 1, 3), new VectorFailures(9, 2, 1, 3));
  }

  @Test
  void whatAlwaysFailsStandsAndCountsInNothingElse() {
    for (int i = 0; i < 3; i++) {
      boolean last = i == 2;
      run(50, PowerOn.How.BY_HAND, v -> v == 5 || v == 6 && last);
    }
    FailureHistory history = history();
    assertThat(history.judged()).isEqualTo(147);
    assertThat(history.failed()).isEqualTo(1);
    assertThat(history.failedSessions()).isEqualTo(1);
    assertThat(history.vectors())
        .containsExactly(new VectorFailures(5, 3, 3, 3), new VectorFailures(6, 3, 1, 3));
    assertThat(history.vectors().get(0).comesAndGoes()).isFalse();
  }

  @Test
  void failuresOfOneSpellAreABunch() {
    for (int i = 0; i < 9; i++) {
      run(200, PowerOn.How.BY_HAND, v -> false);
    }
    run(200, PowerOn.How.BY_HAND, v -> v > 100 && v < 110);
    assertThat(history().bunched()).isLessThan(0.01);
  }

  @Test
  void failuresStrewnByChanceAreNone() {
    SplittableRandom random = new SplittableRandom(20260301);
    for (int i = 0; i < 10; i++) {
      int strewn = random.nextInt(200);
      run(200, PowerOn.How.BY_HAND, v -> v == strewn);
    }
    assertThat(history().bunched()).isGreaterThan(0.05);
  }

  /**
   * 0.99 to the 299th is just below 5 %, to the 298th just above; NIST/SEMATECH e-Handbook
   * 1.3.6.6.18 has the binomial.
   */
  @Test
  void howManyCleanOnesAreNeeded() {
    assertThat(FailureHistory.cleanNeeded(1, 100)).isEqualTo(299);
    assertThat(FailureHistory.cleanNeeded(1, 2)).isEqualTo(5);
    assertThat(FailureHistory.cleanNeeded(9, 10)).isEqualTo(2);
  }
}
