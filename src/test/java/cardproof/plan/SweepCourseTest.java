package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.files.PlanFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a sweep takes from its trials, on the hold card. */
class SweepCourseTest {
  private static final Path HOLD = Path.of("vectors", "hold", "card.yaml").toAbsolutePath();

  @TempDir private Path folder;

  private SweepCourse course;
  private Trial trial;
  private int q;
  private long[] nothing;

  @BeforeEach
  void firstTrial() throws IOException {
    Path file = folder.resolve("plan.yaml");
    Files.writeString(
        file,
        "plan: timing\ncard: "
            + HOLD
            + "\nsteps:\n  - drive: {SEL: 0}\n"
            + "    sweep: {find: hold, data: D, edge: {LD: 0}, from: -20 ms, to: 60 ms}\n");
    Plan plan = PlanFile.read(file).value();
    VectorSource source = plan.vectors();
    for (int i = 0; i < 3; i++) {
      assertThat(source.trialIsNext()).isFalse();
      Vector prepares = source.next();
      assertThat(prepares.phase()).isEqualTo(Phase.PREPARE);
      assertThat(prepares.measured()).isFalse();
    }
    assertThat(source.trialIsNext()).isTrue();
    Vector vector = source.next();
    course = source.sweep().orElseThrow();
    trial = vector.trial().orElseThrow();
    q = plan.card().busIndex("Q");
    nothing = new long[plan.card().buses().size()];
    assertThat(trial.lines()[q]).isEqualTo(0xFFF);
    assertThat(trial.target()[q]).isEqualTo(0x555);
    assertThat(trial.lines()[plan.card().busIndex("D")]).isZero();
  }

  private long[] q(long word) {
    long[] levels = nothing.clone();
    levels[q] = word;
    return levels;
  }

  private SweepEdge edge(int bit) {
    return course.edges().stream()
        .filter(edge -> edge.line().bit() == bit)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void eachLineIsJudgedOnItsOwnAndByTheWayItGoes() {
    course.learn(trial, q(0xAAA), q(0x557), nothing);
    assertThat(course.edges()).hasSize(12);
    assertThat(edge(0).rising()).isTrue();
    assertThat(edge(0).workedUs()).hasValue(60_000);
    assertThat(edge(0).failedUs()).isEmpty();
    assertThat(edge(1).rising()).isFalse();
    assertThat(edge(1).workedUs()).isEmpty();
    assertThat(edge(1).failedUs()).hasValue(60_000);
  }

  /** It shows the right level at the end, and did before: a line that is stuck proves nothing. */
  @Test
  void aLineThatDidNotShowTheOtherLevelBeforeSaysNothing() {
    course.learn(trial, q(0xAAA ^ 1 << 4), q(0x555), nothing);
    assertThat(course.edges()).hasSize(11).noneMatch(edge -> edge.line().bit() == 4);
  }

  @Test
  void aLineThatIsStillMovingHasNotTakenAnything() {
    course.learn(trial, q(0xAAA), q(0x555), q(1 << 3));
    assertThat(edge(3).failedUs()).hasValue(60_000);
    assertThat(edge(2).failedUs()).isEmpty();
  }

  @Test
  void aLineThatMovedAfterTheTrialHadEndedHasNotEither() {
    course.learn(trial, q(0xAAA), q(0x555), nothing);
    course.doubt(trial, q(1 << 3 | 1 << 4));
    for (int bit : List.of(3, 4)) {
      assertThat(edge(bit).failedUs()).hasValue(60_000);
      assertThat(edge(bit).workedUs()).isEmpty();
      assertThat(edge(bit).trials()).isEqualTo(1);
    }
    assertThat(edge(2).workedUs()).hasValue(60_000);
  }
}
