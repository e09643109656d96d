package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Every demonstration card does, relay by relay, what its behaviour says. The two are written down
 * apart from one another: the behaviour from arithmetic, the wiring from what is soldered.
 */
class WiringAgreementTest {
  private static final int IN_ALL = 100_000;
  private static final int IN_SHORT = 2_000;

  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"sum", "hold", "hour", "pick", "store"})
  void wiringDoesWhatBehaviourSays(String card) throws Exception {
    agree(card, IN_SHORT);
  }

  @Tag("long")
  @ParameterizedTest
  @ValueSource(strings = {"sum", "hold", "hour", "pick", "store"})
  void wiringDoesWhatBehaviourSaysAHundredThousandTimes(String card) throws Exception {
    agree(card, IN_ALL);
  }

  private void agree(String card, int vectors) throws Exception {
    Path plan = folder.resolve(card + ".yaml");
    Path cardFile = Path.of("vectors", card, "card.yaml").toAbsolutePath();
    Files.writeString(
        plan,
        "plan: " + card + " at random\ncard: " + cardFile + "\nsteps:\n" + steps(card, vectors));
    Cli cli = Cli.run("run", plan, "--json");
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    JsonObject run = JsonParser.parseString(cli.out()).getAsJsonObject();
    assertThat(run.get("simulatedFrom").getAsString()).isEqualTo("wiring");
    assertThat(run.get("vectors").getAsInt()).isGreaterThanOrEqualTo(vectors);
    assertThat(run.getAsJsonObject("verdicts").get("pass")).isEqualTo(run.get("vectors"));
    assertThat(run.get("notJudgedBits").getAsInt()).isZero();
  }

  /** Inputs that a register must not see move together are kept apart by pulses, as on a bench. */
  private static String steps(String card, int vectors) {
    int pulses = vectors / 3 + 1;
    return switch (card) {
      case "sum" -> "  - each: {A B CI: {random: " + vectors + ", seed: 31}}\n";
      case "pick" -> "  - each: {X EN: {random: " + vectors + ", seed: 32}}\n";
      case "hold" ->
          "  - drive: {LD: 0}\n    each: {SEL D: {random: "
              + pulses
              + ", seed: 33}}\n"
              + "    pulse: {LD: 1}\n";
      case "hour" ->
          "  - repeat: " + pulses + "\n    steps:\n      - {drive: {LD: 0}, pulse: {LD: 1}}\n";
      case "store" -> storeSteps(pulses / 2 + 1);
      default -> throw new IllegalArgumentException(card);
    };
  }

  private static String storeSteps(int pulses) {
    return "  - drive: {RD: 0, WR: 0}\n    each: {AD D: {random: "
        + pulses
        + ", seed: 34}}\n    pulse: {WR: 1}\n"
        + "  - drive: {WR: 0, RD: 0}\n    release: D\n    each: {AD: {random: "
        + pulses
        + ", seed: 35}}\n    pulse: {RD: 1}\n";
  }
}
