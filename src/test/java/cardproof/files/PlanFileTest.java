package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.BehaviourModel;
import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.plan.RepeatStep;
import cardproof.plan.Setting;
import cardproof.plan.Step;
import cardproof.plan.Target;
import cardproof.plan.Timing;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import cardproof.text.Problem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class PlanFileTest {
  private static Loaded<Plan> read(String name) {
    return PlanFile.read(Corpus.GOOD.resolve("plan").resolve(name + ".yaml"));
  }

  private static PatternStep step(Plan plan, int index) {
    return (PatternStep) plan.steps().get(index);
  }

  private static List<Vector> vectors(Plan plan) {
    List<Vector> vectors = new ArrayList<>();
    VectorSource source = plan.vectors();
    while (source.hasNext()) {
      vectors.add(source.next());
    }
    return vectors;
  }

  @Test
  void readsABringUp() {
    Loaded<Plan> loaded = read("bring-up");
    Plan plan = loaded.value();
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.sources())
        .containsExactly(
            Corpus.GOOD.resolve("plan").resolve("bring-up.yaml"),
            Corpus.GOOD.resolve("plan").resolve("../card/sum.yaml"));
    assertThat(plan.title()).isEqualTo("bring-up of a sum card");
    assertThat(plan.card().name()).isEqualTo("sum");
    assertThat(plan.steps())
        .extracting(Step::title)
        .containsExactly(
            "nothing driven, nothing lit",
            "one line at a time",
            "drive CI; each A, B",
            "carries",
            "each A",
            "each B, A, CI",
            "each A",
            "drive A, B; table CI");
    // counted by hand from the file
    assertThat(plan.steps())
        .extracting(Step::vectorCount)
        .containsExactly(1L, 12L, 36L, 200L, 256L, 12L, 3L, 2L);
    assertThat(plan.steps().get(1).at().line()).isEqualTo(7);
    assertThat(plan.steps().get(1).at().column()).isEqualTo(5);
  }

  @Test
  void itsVectorsDriveAndExpectWhatIsWritten() {
    List<Vector> vectors = vectors(read("bring-up").value());
    Vector walking = vectors.get(1 + 3);
    assertThat(walking.level()).startsWith(0x008, 0x000, 0);
    assertThat(walking.expect()[3]).isEqualTo(0x008);
    Vector row = vectors.get(vectors.size() - 2);
    assertThat(row.level()).startsWith(0xA5F, 0x00F, 0);
    assertThat(row.expect()[3]).isEqualTo(0xA6E);
    assertThat(row.care()[4]).isZero();
    Vector last = vectors.get(vectors.size() - 1);
    assertThat(last.expect()[3]).isEqualTo(0b1010_0000_1111);
    assertThat(last.care()[3]).isEqualTo(0b1111_0011_1111);
  }

  @Test
  void joinedBusesTakeTheirBitsFirstNameMostSignificant() {
    PatternStep carries = step(read("bring-up").value(), 3);
    assertThat(carries.each())
        .singleElement()
        .satisfies(
            axis -> {
              assertThat(axis.targets())
                  .containsExactly(Target.bus(0), Target.bus(1), Target.bus(2));
              assertThat(axis.generator().at(0) >>> 25).isZero();
            });
  }

  @Test
  void aRangeGoesDownToo() {
    PatternStep ranges = step(read("bring-up").value(), 5);
    assertThat(ranges.each().get(0).generator().count()).isEqualTo(3);
    assertThat(ranges.each().get(0).generator().at(1)).isEqualTo(5);
    assertThat(ranges.each().get(0).generator().at(2)).isZero();
  }

  @Test
  void readsEveryWordOfTheGrammar() {
    Plan plan = read("register").value();
    int d = plan.card().busIndex("D");
    assertThat(step(plan, 0).drive())
        .containsExactly(Setting.release(d), Setting.release(plan.card().busIndex("X")));
    assertThat(step(plan, 1).drive())
        .containsExactly(Setting.release(0), Setting.to(1, 0), Setting.release(d));
    RepeatStep repeat = (RepeatStep) plan.steps().get(2);
    assertThat(repeat.times()).isEqualTo(3);
    assertThat(repeat.title()).isEqualTo("load and read back");
    assertThat(repeat.vectorCount()).isEqualTo(3 * (3 + 2 * 2));
    PatternStep load = (PatternStep) repeat.steps().get(0);
    assertThat(load.pulse()).containsExactly(Setting.to(0, 1));
    assertThat(load.expected()).hasSize(3);
    assertThat(load.still()[plan.card().busIndex("Q")]).isEqualTo(0b1001);
    assertThat(load.still()[plan.card().busIndex("FULL")]).isEqualTo(0b11);
    PatternStep table = step(plan, 3);
    assertThat(table.rows().get(1).settings())
        .containsExactly(Setting.to(0, 0), Setting.release(d));
    // a row takes along what its step expects, or it would be forgotten
    assertThat(table.rows().get(1).expected()).hasSize(2);
    assertThat(step(plan, 4).still()[plan.card().busIndex("Q")]).isEqualTo(0xFFF);
    assertThat(step(plan, 4).expected()).hasSize(1);
    assertThat(vectors(plan)).hasSize(1 + 1 + 21 + 2 + 1);
  }

  /** Sums and carries of the card itself say whether the words are what they are called. */
  @Test
  void readsEveryKindOfPattern() {
    Loaded<Plan> loaded = read("patterns");
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.value().steps())
        .extracting(Step::vectorCount)
        .containsExactly(4L, 4L, 12L, 78L, 5L, 8L, 6L, 7L);
    List<Vector> vectors = vectors(loaded.value());
    assertThat(vectors.subList(4, 8))
        .extracting(vector -> vector.level()[0] << 12 | vector.level()[1])
        .containsExactly(0x555333L, 0x555CCCL, 0xAAA333L, 0xAAACCCL);
    assertThat(vectors.subList(8, 20))
        .extracting(vector -> vector.expect()[3] | vector.expect()[4] << 12)
        .containsExactly(
            0x002L, 0x004L, 0x008L, 0x010L, 0x020L, 0x040L, 0x080L, 0x100L, 0x200L, 0x400L, 0x800L,
            0x1000L);
    assertThat(vectors.subList(20, 98))
        .allSatisfy(
            vector ->
                assertThat(Long.bitCount(vector.expect()[3] | vector.expect()[4] << 12))
                    .isEqualTo(1));
    // joined, B is the lower half: line 0 of B has number 1, line 0 of A has number 13
    assertThat(vectors.get(98).level()).startsWith(0x555, 0x555);
    assertThat(vectors.get(98 + 2).level()[0] & 1).isEqualTo(1);
  }

  @Test
  void readsAMarch() {
    Loaded<Plan> loaded = read("store");
    Plan plan = loaded.value();
    assertThat(loaded.warnings()).isEmpty();
    assertThat(plan.steps())
        .extracting(Step::title)
        .containsExactly(
            "every change of the address",
            "March C- with five backgrounds",
            "march MATS+",
            "the first five words only",
            "address and read line, one at a time");
    assertThat(plan.steps())
        .extracting(Step::vectorCount)
        .containsExactly(57L, 3 * 400L, 3 * 200L, 21L, 16L);
    int d = plan.card().busIndex("D");
    List<Vector> vectors = vectors(plan);
    // the first read of March C-: r0 of word 0, after w0 of all eight
    Vector read = vectors.get(57 + 3 * 8 + 1);
    assertThat(read.describe()).isEqualTo("AD=0x0 WR=0 RD=1 (pulse on)");
    assertThat(read.enabled()[d]).isZero();
    // what the march expects is what a memory without fault gives
    BehaviourModel memory = new BehaviourModel(plan.card());
    for (Vector vector : vectors) {
      memory.apply(vector.level());
      assertThat(vector.expect()[d]).as(vector.origin()).isEqualTo(memory.value(d));
    }
  }

  @Test
  void readsAMarchWithWaysInAndOutApart() {
    Loaded<Plan> loaded = read("march-apart");
    assertThat(loaded.warnings()).extracting(Problem::found).noneMatch(f -> f.contains("expect"));
    List<Vector> vectors = vectors(loaded.value());
    assertThat(vectors).hasSize(3 * 5 * 6);
    // w0 of the words 0 to 5, the bank first: 0 0..3, then 1 0..1
    assertThat(vectors.get(3 * 4).level()).startsWith(1, 0);
    assertThat(vectors.get(3 * 5).level()).startsWith(1, 1);
    // r1 of the highest word, going down
    Vector read = vectors.get(3 * 18 + 1);
    assertThat(read.level()).startsWith(1, 1);
    assertThat(read.expect()[5]).isEqualTo(0xF);
    assertThat(read.care()[5]).isEqualTo(0xF);
    assertThat(vectors.get(3 * 18 + 2).care()[5]).isZero();
  }

  /** A card whose lines all sit in one bus: what it is, is in the labels. */
  @Test
  void readsMarchesOfSingleLinesAndSetWordsInEveryPattern() {
    Loaded<Plan> loaded = read("marches");
    Plan plan = loaded.value();
    assertThat(loaded.warnings()).isEmpty();
    assertThat(plan.steps())
        .extracting(Step::title)
        .startsWith("drive C, D", "MATS+ of D", "March C- of D", "March C- of D[1]")
        .endsWith("D1 through walking-ones", "D through gray", "D through WORDS");
    assertThat(plan.steps())
        .extracting(Step::vectorCount)
        .containsExactly(1L, 30L, 120L, 60L, 3L, 6L, 3L, 2L, 2L, 3L, 3L, 1L, 1L, 4L, 3L);
    List<Vector> vectors = vectors(plan);
    // the second operation of MATS+: w0 of word 1, with AD and WR two lines of C
    assertThat(vectors.get(1 + 3 + 1).describe()).isEqualTo("C=0x3 D=0x0 (pulse on)");
    // the second background of March C- is the checkerboard
    int d = plan.card().busIndex("D");
    assertThat(vectors.get(1 + 30 + 60).level()[d]).isEqualTo(0b01);
    // one line of D is the word: w1 sets it and leaves the other, r lets go of it alone
    int d1 = 1 + 30 + 120;
    Vector read = vectors.get(d1 + 3 * 2 + 1);
    assertThat(read.describe()).startsWith("C=0x4");
    assertThat(read.enabled()[d] & 0b10).isZero();
    Vector write = vectors.get(d1 + 3 * 3 + 1);
    assertThat(write.level()[d] & 0b10).isEqualTo(0b10);
    assertThat(write.level()[d] & 0b01).isEqualTo(read.level()[d] & 0b01);
    BehaviourModel memory = new BehaviourModel(plan.card());
    for (Vector vector : vectors) {
      memory.apply(vector.level());
      assertThat(vector.expect()[d]).as(vector.origin()).isEqualTo(memory.value(d));
    }
  }

  @Test
  void timesComeFromTheNearestLevelThatSaysThem() {
    Plan plan = read("register").value();
    Timing ofPlan = step(plan, 0).timing();
    assertThat(ofPlan.settleUs()).isEqualTo(120_000);
    assertThat(ofPlan.limitUs(plan.card().busIndex("Q"))).isEqualTo(90_000);
    assertThat(ofPlan.limitUs(plan.card().busIndex("D"))).isEqualTo(200_000);
    assertThat(ofPlan.quietUs()).isEqualTo(80_000);
    assertThat(ofPlan.watchUs()).isEqualTo(500_000);
    RepeatStep inner = (RepeatStep) ((RepeatStep) plan.steps().get(2)).steps().get(1);
    assertThat(((PatternStep) inner.steps().get(0)).timing().quietUs()).isEqualTo(100_000);
    Timing ofStep = step(plan, 3).timing();
    assertThat(ofStep.limitUs(plan.card().busIndex("D"))).isEqualTo(100_000);
    assertThat(ofStep.watchUs()).isEqualTo(1_000_000);
    // a longer limit takes the end of watching along with it
    assertThat(step(read("bring-up").value(), 6).timing().watchUs()).isEqualTo(1_065_000);
  }

  @Test
  void warnsOfStepsThatJudgeNothingAndOfEndlessOnes() {
    assertThat(read("bare").warnings())
        .extracting(Problem::found)
        .satisfiesExactly(
            first -> assertThat(first).startsWith("this step and 1 more expect nothing"),
            second -> assertThat(second).contains("stands for 10000000 vectors"),
            third -> assertThat(third).isEqualTo("the card has no 'behaviour'"),
            fourth -> assertThat(fourth).contains("unseen-stages"),
            fifth -> assertThat(fifth).contains("release"),
            sixth -> assertThat(sixth).contains("bounce"));
  }

  private static String firstPlace(Plan plan, int step) {
    return step(plan, step).at().file() + step(plan, step).marks().calls();
  }

  @Test
  void aCallStandsForTheStepsOfItsProcedure() {
    Loaded<Plan> loaded = read("procedures");
    Plan plan = loaded.value();
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.sources()).hasSize(4);
    int d = plan.card().busIndex("D");
    // by hand: put, again (put, move, drive; twice), keep (put, move), and four plain steps
    assertThat(plan.steps())
        .extracting(Step::title)
        .containsExactly(
            "put NEAP in the register",
            "twice: repeat 2 times",
            "keep 0xA53: put 0xA53 in the register",
            "move D[11]",
            "each D; pulse LD",
            "each D[0] D[2], D[1]; release D[3], D[4]",
            "table D[0], LD",
            "drive D; pulse LD");
    assertThat(step(plan, 0).drive()).containsExactly(Setting.to(d, 412));
    assertThat(step(plan, 0).tags()).containsExactlyInAnyOrder("load", "quick");
    assertThat(step(plan, 0).marks().sync()).contains(true);
    assertThat(firstPlace(plan, 0))
        .endsWith("parts/registers.yaml (called at " + Corpus.GOOD + "/plan/procedures.yaml:26)");
    assertThat(((RepeatStep) plan.steps().get(1)).steps())
        .extracting(Step::title)
        .containsExactly(
            "twice: keep NEAP: put NEAP in the register", "twice: move D[0]", "twice: drive D[1]");
    assertThat(((RepeatStep) plan.steps().get(1)).steps())
        .allSatisfy(step -> assertThat(step.tags()).contains("slow"));
    // a line that stands where a bus may: D[11] of what was left by the step before
    assertThat(vectors(plan).get(19).level()[d]).isEqualTo(0x253);
    assertThat(vectors(plan).get(19).expect()[plan.card().busIndex("Q")]).isEqualTo(0xA53);
  }

  @Test
  void oneLineIsSetReleasedAndExpectedAndTheOthersStay() {
    Plan plan = read("procedures").value();
    List<Vector> vectors = vectors(plan);
    int d = plan.card().busIndex("D");
    // D[0] and D[2] count, D[2] least significant; D[1] goes 1, 0; D[3] and D[4] are let go of
    assertThat(vectors.subList(29, 37))
        .extracting(vector -> vector.level()[d])
        .containsExactly(2L, 0L, 6L, 4L, 3L, 1L, 7L, 5L);
    assertThat(vectors.get(29).enabled()[d]).isEqualTo(0xFE7);
    assertThat(vectors.get(38).enabled()[d]).isEqualTo(0xFE6);
    int q = plan.card().busIndex("Q");
    assertThat(vectors.get(38).care()[q]).isEqualTo(0xFFE);
    assertThat(vectors.get(38).expect()[q]).isEqualTo(0x004);
  }

  @Test
  void whatNobodyCallsIsSaid() throws IOException {
    Path file =
        write(
            """
            plan: p
            card: %s
            procedures:
              spare: {steps: [{drive: {A: 0}}]}
            steps:
              - drive: {A: 1}
            """);
    assertThat(PlanFile.read(file).warnings())
        .extracting(Problem::toString)
        .containsExactly(
            file + ":4:3: procedure 'spare' is never called. Take it out, or call it in a step.");
  }

  @TempDir private Path folder;

  private Path write(String text) throws IOException {
    Path card = Corpus.GOOD.resolve("card").resolve("sum.yaml").toAbsolutePath();
    return Files.writeString(folder.resolve("plan.yaml"), text.formatted(card));
  }

  @Test
  void readsTheDemonstrationPlans() {
    for (String card : List.of("sum", "hold")) {
      Loaded<Plan> loaded = PlanFile.read(Path.of("vectors", card, "bring-up.yaml"));
      assertThat(loaded.warnings()).isEmpty();
      assertThat(vectors(loaded.value())).hasSizeGreaterThan(50);
    }
  }
}
