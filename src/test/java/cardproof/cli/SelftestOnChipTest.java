package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.files.FixtureFile;
import cardproof.firmware.Chip;
import cardproof.firmware.ChipBench;
import cardproof.firmware.LoopBackPins;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.Plug;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import picocli.CommandLine;

/**
 * The self-test with the firmware that ships: the program, a port, a simulated chip, and at its
 * pins drivers, a plug and inputs. Somebody changes the plug when asked to.
 */
class SelftestOnChipTest {
  /** A chip's stamp is right to this, by its own published blind time. */
  private static final long STAMP_US = 16;

  @TempDir private Path folder;

  private record Said(int exitCode, String out, String err, LoopBackPins pins) {}

  private static Path profile(Chip chip) {
    return Path.of("fixtures", chip.target + ".yaml");
  }

  private Said run(Chip chip, UnaryOperator<LoopBackPins> wrong, String... more) {
    FixtureProfile profile = FixtureFile.read(profile(chip)).value();
    List<Plug> plugs = profile.loopBack().plugs();
    LoopBackPins pins = wrong.apply(new LoopBackPins(plugs.get(0)));
    try (ChipBench bench = ChipBench.start(chip, pins, folder)) {
      int[] next = {1};
      Answers person =
          prompt -> {
            assertThat(pins.idle()).as("drives are down while somebody is asked").isTrue();
            if (prompt.contains("yes/no")) {
              assertThat(pins.everDriven().isEmpty()).isTrue();
              return Optional.of("yes");
            }
            pins.put(plugs.get(next[0]++));
            return Optional.of("");
          };
      StringWriter out = new StringWriter();
      StringWriter err = new StringWriter();
      List<String> words = new ArrayList<>(List.of("--fixture", profile(chip).toString()));
      words.addAll(List.of("--port", bench.port().toString()));
      words.addAll(List.of(more));
      int exitCode =
          new CommandLine(new SelftestCommand(() -> Optional.of(person)))
              .setExecutionExceptionHandler(new Failures())
              .setOut(new PrintWriter(out, true))
              .setErr(new PrintWriter(err, true))
              .execute(words.toArray(String[]::new));
      assertThat(bench.stats()).containsEntry("overruns", 0L);
      assertThat(pins.idle()).as("drives are down in the end").isTrue();
      return new Said(exitCode, out.toString(), err.toString(), pins);
    }
  }

  /** All plugs, one after the other; the delay offered is that of driver and input. */
  @ParameterizedTest
  @EnumSource(Chip.class)
  void aSoundFixtureIsProvedAndItsDelayOffered(Chip chip) {
    Said said = run(chip, pins -> pins, "--json");
    JsonObject json = json(said);
    assertThat(said.exitCode).as(said.out + said.err).isZero();
    assertThat(json.get("proved").getAsBoolean()).as(said.out).isTrue();
    assertThat(json.get("simulated").getAsBoolean()).isFalse();
    assertThat(said.pins.everDriven().cardinality()).isEqualTo(chip.drives());
    long wantedUs = (LoopBackPins.ON_NS + LoopBackPins.OFF_NS) / 2 / 1000;
    long offeredUs = json.get("offeredDelayUs").getAsLong();
    System.out.printf("%s: a delay of %d us is offered, %d put in%n", chip, offeredUs, wantedUs);
    assertThat(offeredUs)
        .isBetween(wantedUs - 1, wantedUs + (chip == Chip.M328P_SHIFT ? 30 : STAMP_US));
  }

  @Test
  void theDelayIsOfferedAsALineForTheProfile() {
    Said said = run(Chip.M328P, pins -> pins);
    assertThat(said.exitCode).as(said.out + said.err).isZero();
    assertThat(said.out)
        .containsPattern(
            "The profile states none. Paste under its 'watches'\n    delay: [12]\\d us  #")
        .contains("PROVED: fixture 'ATmega328P 6+8', 6 drives and 8 watches\n")
        .doesNotContain("SIMULATED");
  }

  private static JsonObject json(Said said) {
    return JsonParser.parseString(said.out).getAsJsonObject();
  }

  /** What is wrong is named, each as what it is, and nothing else. */
  private void named(Chip chip, UnaryOperator<LoopBackPins> wrong, String... sentences) {
    Said said = run(chip, wrong, "--json");
    assertThat(said.exitCode).as(said.out + said.err).isEqualTo(ExitCode.FAILED);
    List<String> says = new ArrayList<>();
    json(said)
        .getAsJsonArray("findings")
        .forEach(finding -> says.add(finding.getAsJsonObject().get("says").getAsString()));
    json(said)
        .getAsJsonArray("slow")
        .forEach(
            slow ->
                says.add(slow.getAsJsonObject().get("says").getAsString().replaceFirst(":.*", "")));
    assertThat(says).as(said.out).containsExactlyInAnyOrder(sentences);
    assertThat(json(said).getAsJsonArray("unexplained")).isEmpty();
    assertThat(json(said).getAsJsonArray("wrongPlugs")).isEmpty();
  }

  @Test
  void deadStuckSwappedAndSlowChannelsOfTheSmallBoard() {
    named(Chip.M328P, pins -> pins.deadDrive(3), "D3 is dead: no 1 ever comes from it");
    named(Chip.M328P, pins -> pins.deadWatch(6), "W6 is dead: it never reads 1");
    named(Chip.M328P, pins -> pins.stuckDrive(2), "D2 is stuck at 1: on with nothing driven");
    named(
        Chip.M328P, pins -> pins.stuckWatch(7), "W7 is stuck at 1: it reads 1 whatever is driven");
    named(Chip.M328P, pins -> pins.exchangedDrives(1, 2), "D1 and D2 are swapped");
    named(Chip.M328P, pins -> pins.exchangedWatches(2, 3), "W2 and W3 are swapped");
    named( // in plug 1 both hang at D0
        Chip.M328P,
        pins -> pins.exchangedWatches(0, 6),
        "one of these, which the plugs that were on cannot tell apart: W0 and W6 are swapped; the"
            + " wires of plug 2 at W0 and W6 are swapped");
    named(
        Chip.M328P,
        pins -> pins.slowDrive(4, 900),
        "D4 is slow to go to 1",
        "D4 is slow to go to 0");
  }

  /** A cut and an exchange at once, and a watch that is slow. */
  @Test
  void aCutAndAnExchangeOnTheLargeBoard() {
    named(
        Chip.M2560,
        pins -> pins.cut(20).exchangedDrives(9, 10).slowWatch(5, 700),
        "W20 is dead: it never reads 1",
        "D9 and D10 are swapped",
        "W5 is slow to go to 1",
        "W5 is slow to go to 0");
  }

  /** A wire of one plug alone is open: neither its drive nor its watch is blamed. */
  @Test
  void aWireOfOnePlugThatIsOpen() {
    FixtureProfile profile = FixtureFile.read(profile(Chip.M328P)).value();
    Plug first = profile.loopBack().plugs().get(0);
    List<Plug.Join> left = first.joins().stream().filter(join -> join.watch() != 5).toList();
    LoopBackPins pins = new LoopBackPins(new Plug(1, left));
    named(Chip.M328P, sound -> pins, "the wire of plug 1 at W5 is open, or at ground");
  }
}
