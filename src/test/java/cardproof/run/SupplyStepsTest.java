package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.fixture.Pattern;
import cardproof.fixture.Session;
import cardproof.fixture.SessionEvent;
import cardproof.fixture.SessionSettings;
import cardproof.log.RunEnd;
import cardproof.log.Verdict;
import cardproof.plan.Plan;
import cardproof.run.BenchRun.Outcome;
import cardproof.sim.SimSettings;
import cardproof.sim.SimSupply;
import cardproof.sim.SimulatedBench;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Steps that switch the supply, whoever does it, and the supply over a whole run. */
class SupplyStepsTest {
  private static final String CARD =
      """
      card: keep
      supply: {voltage: 12 V, limit: 1 A}
      inputs: {D: {width: 4, at: J1.1-4}, LD: {at: J1.5}}
      outputs: {Q: {width: 4, at: J2.1-4}}
      state: {R: {width: 4, next: "LD ? D : R"}}
      behaviour: {Q: R}
      limits: {settle: 100 ms}
      relays: {unseen-stages: 1, operate: 15 ms, release: 18 ms, bounce: 8 ms}
      """;
  private static final String PLAN =
      """
      plan: off and on
      card: card.yaml
      steps:
        - {drive: {D: 5}, pulse: {LD: 1}}
        - power: off
        - power: on
        - {each: {D: walking-ones}, pulse: {LD: 1}}
      """;
  private static final SimSupply SWITCHED = new SimSupply(true, false, 0, 1, 0, 1, 0);

  @TempDir private Path folder;

  private Plan plan() throws IOException {
    Files.writeString(folder.resolve("card.yaml"), CARD);
    return PlanFile.read(Files.writeString(folder.resolve("plan.yaml"), PLAN)).value();
  }

  @Test
  void withNobodyToSwitchNothingIsDriven() throws IOException {
    Plan plan = plan();
    BenchRun run = BenchRun.of(plan, folder);
    assertThatThrownBy(run::go)
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("plan.yaml:5:5")
        .hasMessageContaining("--fixture")
        .hasMessageContaining("--skip");
  }

  @Test
  void theFixtureSwitches() throws IOException {
    BenchRun run =
        BenchRun.of(plan(), folder)
            .settings(s -> s.withSupply(SWITCHED).withSlots(2))
            .switching(
                (on, session) -> {
                  session.supply(on);
                  return false;
                });
    Outcome outcome = run.go();
    // the card is dark until somebody switches on, so the first word never comes
    assertThat(outcome.verdicts().subList(0, 3)).contains(Verdict.WRONG);
    assertThat(outcome.verdicts().subList(3, 17)).containsOnly(Verdict.PASS);
    assertThat(outcome.down()).isTrue();
  }

  @Test
  void aPersonSwitchesWhileTheSessionIsClosed() throws IOException {
    List<Boolean> asked = new ArrayList<>();
    BenchRun run = BenchRun.of(plan(), folder).settings(s -> s.withSlots(2));
    run.switching(
        (on, session) -> {
          asked.add(on);
          session.stop();
          run.bench().switchByHand(on);
          session.openAnew();
          session.arm();
          return true;
        });
    Outcome outcome = run.go();
    assertThat(asked).containsExactly(false, true);
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.FINISHED);
    assertThat(outcome.verdicts()).hasSize(17).containsOnly(Verdict.PASS);
    assertThat(outcome.toldTheSame()).isTrue();
    assertThat(outcome.superseded()).isEmpty();
  }

  @Test
  void aRunMayBeStoppedAtTheQuestion() throws IOException {
    StopSignal stop = new StopSignal();
    Outcome outcome =
        BenchRun.of(plan(), folder)
            .stop(stop)
            .switching(
                (on, session) -> {
                  session.stop();
                  stop.request("at the question");
                  return true;
                })
            .go();
    assertThat(outcome.ending().end()).isEqualTo(RunEnd.STOPPED);
    assertThat(outcome.verdicts()).hasSize(3).containsOnly(Verdict.PASS);
    assertThat(outcome.down()).isTrue();
  }

  /** A switch that is welded, or a hand at the wrong supply. */
  @Test
  void aSupplyThatDoesNotGoAwayIsSaidSo() {
    Plan plan = PlanFile.read(twin()).value();
    Outcome outcome =
        BenchRun.of(plan, folder)
            .settings(s -> s.withSupply(new SimSupply(false, true, 30_000, 1, 5_000, 1, 0)))
            .switching((on, session) -> false)
            .go();
    assertThat(outcome.records().get(1).verdict()).isEqualTo(Verdict.SUPPLY);
    assertThat(outcome.records().get(1).why())
        .isEqualTo("the supply is switched off, and 12 V still stand at the card");
  }

  private Path twin() {
    Path from = Path.of("src", "test", "resources", "cli", "supply", "twin-card.yaml");
    try {
      Path inside = Files.createDirectories(folder.resolve("twin"));
      Files.copy(Path.of("vectors", "relays.yaml"), folder.resolve("relays.yaml"));
      Files.copy(from, inside.resolve("card.yaml"));
      return Files.writeString(
          inside.resolve("plan.yaml"),
          "plan: off\ncard: card.yaml\nsteps:\n  - drive: {G: 1, H: 1}\n  - power: off\n");
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Test
  void onBeforeTheFirstVectorAndOffHoweverItEnds() throws IOException {
    Plan plan = plan();
    for (String end : List.of("ran", "stopped", "dropped")) {
      HookUp hookUp = HookUp.of(plan.card(), FixtureProfile.simulatedBench(16, 16));
      try (SimulatedBench bench =
              new SimulatedBench(
                  plan.card(),
                  hookUp.lineOfDrive(),
                  hookUp.lineOfWatch(),
                  SimSettings.of(1, "01").withSupply(SWITCHED));
          Session session =
              Session.open(
                  bench, hookUp, SessionSettings.of(plan.card()), new SplittableRandom(1))) {
        CardSupply supply = new CardSupply(plan.card(), session);
        assertThat(supply.turnOn()).isEmpty();
        session.arm();
        if (end.equals("stopped")) {
          session.stop();
        } else if (end.equals("dropped")) {
          // nobody renews the lease for so long that the fixture drops its drives by itself
          pass(bench, bench.nowNs() + 6_000_000_000L);
        }
        assertThat(supply.turnOff()).as(end).isEmpty();
        session.openAnew();
        session.arm();
        assertThat(lit(session)).as(end).isZero();
      }
    }
  }

  /** What comes back when a word is driven into the register. */
  private static long lit(Session session) {
    session.submit(
        new Pattern(
            new long[] {5, 1, 0},
            new long[] {15, 1, 0},
            new long[] {0, 0, 5},
            new long[] {0, 0, 15},
            new long[3],
            100_000,
            140_000,
            32_500,
            false,
            false));
    SessionEvent event = session.await(1_000_000_000L);
    assertThat(event).isInstanceOf(SessionEvent.Observed.class);
    return ((SessionEvent.Observed) event).observation().seen()[2];
  }

  private static void pass(SimulatedBench bench, long untilNs) {
    byte[] heard = new byte[4096];
    while (bench.nowNs() < untilNs) {
      bench.read(heard, untilNs);
    }
  }

  @Test
  void aSupplyThatCannotBeTurnedOffIsLeftToAPerson() throws IOException {
    Plan plan = plan();
    HookUp hookUp = HookUp.of(plan.card(), FixtureProfile.simulatedBench(16, 16));
    try (SimulatedBench bench =
            new SimulatedBench(
                plan.card(),
                hookUp.lineOfDrive(),
                hookUp.lineOfWatch(),
                SimSettings.of(1, "01")
                    .withSupply(SWITCHED)
                    .withLineFaults(
                        List.of(
                            cardproof.sim.line.LineFault.parse("link: cut at 3 s for 1000 s"))));
        Session session =
            Session.open(bench, hookUp, SessionSettings.of(plan.card()), new SplittableRandom(1))) {
      CardSupply supply = new CardSupply(plan.card(), session);
      assertThat(supply.turnOn()).isEmpty();
      pass(bench, 3_100_000_000L);
      assertThat(supply.turnOff())
          .hasValueSatisfying(
              problem -> assertThat(problem.next()).isEqualTo("Switch the supply off by hand"));
    }
  }
}
