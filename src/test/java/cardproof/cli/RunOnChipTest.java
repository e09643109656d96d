package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultNames;
import cardproof.files.CardFile;
import cardproof.files.FixtureFile;
import cardproof.firmware.Chip;
import cardproof.firmware.ChipBench;
import cardproof.fixture.HookUp;
import cardproof.sim.PinnedCard;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The main job with the firmware that ships: the program, a port, the reference firmware on a
 * simulated ATmega2560, and at its pins a card simulated from its wiring.
 */
class RunOnChipTest {
  private static final Path PROFILE = Path.of("fixtures", "m2560.yaml");

  @TempDir private Path folder;

  private Cli run(String... faults) {
    Path plan = Cli.demonstration(folder, "sum");
    Card card = CardFile.read(plan.resolveSibling("card.yaml")).value();
    HookUp hookUp = HookUp.of(card, FixtureFile.read(PROFILE).value());
    List<Fault> put = List.of(faults).stream().map(name -> FaultNames.parse(name, card)).toList();
    PinnedCard pinned =
        PinnedCard.wired(card, put, hookUp.lineOfDrive(), hookUp.lineOfWatch(), 1, "01");
    try (ChipBench bench = ChipBench.start(Chip.M2560, pinned, folder)) {
      Cli cli =
          Cli.run(
              "run",
              plan,
              "--fixture",
              PROFILE,
              "--port",
              bench.port(),
              "--unit",
              "05",
              "--powered");
      assertThat(bench.stats().get("overruns")).isZero();
      return cli;
    }
  }

  @Test
  void theSumCardIsProved() {
    Cli cli = run();
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isZero();
    assertThat(cli.out())
        .contains("274 vectors: 274 pass", "PROVED: sum unit 05")
        .doesNotContain("SIMULATED");
  }

  @Test
  void aFaultyOneIsNotAndTheBitsAreNamed() {
    Cli cli = run("BIT[4].B coil open");
    assertThat(cli.exitCode()).as(cli.out() + cli.err()).isEqualTo(ExitCode.FAILED);
    assertThat(cli.out()).contains("S[4] (J4.5): wanted ", "NOT PROVED: sum unit 05");
  }
}
