package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.plan.RepeatStep;
import cardproof.plan.Step;
import cardproof.plan.StepFilter;
import cardproof.plan.SyncPoints;
import cardproof.text.Problem;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Steps chosen by title and tag, and steps that establish what the card keeps. */
class PlanLanguageTest {
  @TempDir private Path folder;

  private Plan plan(String steps) throws IOException {
    Path card = Path.of("vectors", "hold", "card.yaml").toAbsolutePath();
    String text = "plan: p\ncard: " + card + "\nsteps:\n" + steps.indent(2);
    return PlanFile.read(Files.writeString(folder.resolve("plan.yaml"), text)).value();
  }

  private static List<String> titles(List<Step> steps) {
    List<String> titles = new ArrayList<>();
    for (Step step : steps) {
      titles.add(step.title());
      if (step instanceof RepeatStep repeat) {
        titles.addAll(titles(repeat.steps()));
      }
    }
    return titles;
  }

  private static final String STEPS =
      """
      - title: Clear it
        drive: {D: 0}
        pulse: {LD: 1}
        tags: [quick, clear]
      - repeat: 2
        title: many
        tags: slow
        steps:
          - title: load
            each: {D: walking-ones}
            pulse: {LD: 1}
          - title: load quickly
            drive: {D: 1}
            tags: QUICK
      - title: slow show
        drive: {SEL: 1}
      """;

  private List<String> kept(List<String> only, List<String> skip) throws IOException {
    return titles(plan(STEPS).only(new StepFilter(only, skip)).steps());
  }

  @Test
  void aTagChoosesExactlyAndATitleByAnyPartOfIt() throws IOException {
    assertThat(kept(List.of("#quick"), List.of()))
        .containsExactly("Clear it", "many", "load quickly");
    assertThat(kept(List.of("quick"), List.of())).containsExactly("many", "load quickly");
    assertThat(kept(List.of("#slow"), List.of())).containsExactly("many", "load", "load quickly");
    assertThat(kept(List.of("clear", "SHOW"), List.of())).containsExactly("Clear it", "slow show");
  }

  @Test
  void whatIsSkippedIsLeftOutOfWhatIsChosen() throws IOException {
    assertThat(kept(List.of(), List.of("#quick"))).containsExactly("many", "load", "slow show");
    assertThat(kept(List.of("many"), List.of("quickly"))).containsExactly("many", "load");
    assertThat(kept(List.of(), List.of("#slow", "clear"))).containsExactly("slow show");
  }

  @Test
  void wordsThatChooseNothingAreRefusedWithTheNearest() {
    assertThatThrownBy(() -> kept(List.of("#clera"), List.of("shaw")))
        .hasMessageContaining("--only '#clera': no step of the plan has this tag")
        .hasMessageContaining("Did you mean '#clear'?")
        .hasMessageContaining("--skip 'shaw': no step of the plan has these words in its title");
    assertThatThrownBy(() -> kept(List.of("load"), List.of("many")))
        .hasMessageContaining("no step is left");
  }

  private static List<Boolean> established(Plan plan) {
    SyncPoints points = plan.syncPoints();
    List<Boolean> all = new ArrayList<>();
    for (Step step : plan.steps()) {
      all.add(step instanceof PatternStep pattern && points.establishes(pattern));
    }
    return all;
  }

  /** The hold card keeps one word, which LD = 1 takes from D, and nothing else changes. */
  @Test
  void aStepThatLoadsEstablishesTheStateAndOneThatLooksDoesNot() throws IOException {
    Plan plan =
        plan(
            """
            - drive: {D: 0x5AC}
              pulse: {LD: 1}
            - pulse: {SEL: 1}
            - each: {D: walking-ones}
            - each: {D: all}
              pulse: {LD: 1}
            - drive: {LD: 1}
            - drive: {LD: 0, D: 1}
            - each: {LD: [1, 0]}
            """);
    assertThat(established(plan)).containsExactly(true, false, false, true, true, false, true);
  }

  @Test
  void anAuthorsWordHoldsAndIsWarnedOfWhereTheBehaviourSaysOtherwise() throws IOException {
    Plan plan =
        plan(
            """
            - title: looks
              pulse: {SEL: 1}
              sync: true
            - drive: {D: 1}
              pulse: {LD: 1}
              sync: false
            - drive: {D: 2}
              pulse: {LD: 1}
              sync: true
            """);
    assertThat(established(plan)).containsExactly(true, false, true);
    assertThat(PlanCheck.of(plan, done -> {}).warnings())
        .extracting(Problem::found)
        .containsExactly(
            "by the card's behaviour this step leaves open what is in R, though it says sync: true");
  }

  /** In the first pass LD is 1 from the step before the group, in the second it is 0. */
  @Test
  void aStepInAGroupMustEstablishTheStateInEveryPass() throws IOException {
    Plan plan =
        plan(
            """
            - drive: {LD: 1}
            - repeat: 2
              steps:
                - drive: {D: 5}
                - drive: {LD: 0}
            """);
    RepeatStep group = (RepeatStep) plan.steps().get(1);
    assertThat(plan.syncPoints().establishes((PatternStep) group.steps().get(0))).isFalse();
    Plan once =
        plan(
            """
            - drive: {LD: 1}
            - repeat: 1
              steps:
                - drive: {D: 5}
            """);
    RepeatStep alone = (RepeatStep) once.steps().get(1);
    assertThat(once.syncPoints().establishes((PatternStep) alone.steps().get(0))).isTrue();
  }
}
