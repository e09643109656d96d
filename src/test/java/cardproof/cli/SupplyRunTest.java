package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.log.BenchLog;
import cardproof.log.SupplyFinding;
import cardproof.log.VectorRecord;
import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Runs on a simulated fixture that switches and measures the supply. */
class SupplyRunTest {
  private static final Path SENSING = Path.of("fixtures", "sensing-32.yaml");
  private static final Path RESOURCES = Path.of("src", "test", "resources", "cli", "supply");

  @TempDir private Path folder;

  private Path twin() throws IOException {
    Files.createDirectories(folder.resolve("twin"));
    Cli.copy(folder, Path.of("vectors", "relays.yaml"));
    return Cli.copy(
        folder.resolve("twin"),
        RESOURCES.resolve("twin-card.yaml"),
        RESOURCES.resolve("twin-plan.yaml"));
  }

  private Path offAndOn() {
    Path plan = Cli.demonstration(folder, "hold");
    return Cli.copy(plan.getParent(), RESOURCES.resolve("off-and-on.yaml"));
  }

  private static JsonObject json(Cli cli) {
    return JsonParser.parseString(cli.out()).getAsJsonObject();
  }

  private static List<VectorRecord> vectors(Path plan) {
    List<VectorRecord> all = new ArrayList<>();
    try (BenchLog log = BenchLog.openForReading(plan.resolveSibling("bench-log.sqlite"))) {
      log.forEachVector(1, all::add);
    }
    return all;
  }

  @ParameterizedTest
  @CsvSource({"sum", "hold", "pick"})
  void aSoundCardIsProvedAndMeasured(String card) {
    Path plan = Cli.demonstration(folder, card);
    Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--json");
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    assertThat(json(cli).get("proved").getAsBoolean()).isTrue();
    assertThat(json(cli).getAsJsonArray("missing")).isEmpty();
    assertThat(json(cli).getAsJsonObject("lowestRailMv").get("value").getAsInt())
        .isBetween(11_700, 12_000);
    assertThat(vectors(plan))
        .allSatisfy(
            vector -> {
              assertThat(vector.supply().lowestRailMv()).isPresent();
              assertThat(vector.supply().highestCurrentMa()).isPresent();
              // coils and lamps are spread by 10 % each, so all together by no more
              double expected = vector.supply().expectedMa().orElseThrow();
              assertThat((double) vector.supply().currentMa().orElseThrow())
                  .isBetween(0.89 * expected - 3, 1.115 * expected + 3);
            });
  }

  /**
   * TE Schrack PT data sheet: a 12 V coil has 192 ohm, so 62.5 mA, to 10 %; the lamp of the card is
   * rated 40 mA; beside them the fixture's own input of 1 kohm, 12 mA.
   */
  @Test
  void oneLineOfTheSumCardIsOneCoilOneLampAndOneInput() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli.run("run", plan, "--fixture", SENSING, "--only", "one line of A");
    for (VectorRecord vector : vectors(plan)) {
      assertThat(vector.supply().expectedMa()).hasValue(115);
      assertThat(vector.supply().currentMa().orElseThrow())
          .isBetween((int) (102.5 / 1.1 + 12) - 2, (int) (102.5 / 0.9 + 12) + 2);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"P[0].M", "P[3].N"})
  void aCoilThatNoLineMissesIsMissedByTheCurrent(String relay) throws IOException {
    Path plan = twin();
    Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--json", "--fault", relay + " coil open");
    JsonObject run = json(cli);
    assertThat(run.get("failureCount").getAsLong()).isZero();
    assertThat(run.get("proved").getAsBoolean()).isFalse();
    String pair = relay.substring(0, 4);
    // the two are pulled together in every vector, so the current cannot tell them apart
    assertThat(texts(run.getAsJsonArray("missing")))
        .containsExactly("one coil fewer than expected: " + pair + ".M or " + pair + ".N");
    try (BenchLog log = BenchLog.openForReading(plan.resolveSibling("bench-log.sqlite"))) {
      List<SupplyFinding> found = log.supplyFindings(1);
      assertThat(found.get(found.size() - 1).words()).contains(pair + ".M or " + pair + ".N");
    }
  }

  private static List<String> texts(JsonArray array) {
    List<String> texts = new ArrayList<>();
    array.forEach(one -> texts.add(one.getAsString()));
    return texts;
  }

  @Test
  void aLampThatIsDeadIsForTheCurrentToo() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--fault", "BIT[3].L dead");
    assertThat(cli.out())
        .contains("CURRENT: one lamp fewer than expected: BIT[3].L", "274 vectors: 274 pass")
        .endsWith("which proves no card (SIMULATED)\n");
    Cli shown = Cli.run("log", plan.getParent(), "--run", 1);
    assertThat(shown.out())
        .contains("supply: lowest 12 V", "current: one lamp fewer than expected: BIT[3].L");
  }

  @Test
  void twoThatAreNotThereAreBothFound() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli =
        Cli.run(
            "run",
            plan,
            "--fixture",
            SENSING,
            "--json",
            "--fault",
            "BIT[3].L dead",
            "--fault",
            "LCO dead");
    assertThat(texts(json(cli).getAsJsonArray("missing")))
        .containsExactlyInAnyOrder(
            "one lamp fewer than expected: BIT[3].L", "one lamp fewer than expected: LCO");
  }

  @Test
  void aFailedVectorSaysHowManyCoilsAreNotPulled() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--fault", "BIT[3].A coil open");
    assertThat(cli.out())
        .contains("settled, but not as wanted; one coil fewer than expected: BIT[3].A:");
  }

  /**
   * Each with resistances of its own, to 10 %: none may be taken for a card that lacks something.
   */
  @ParameterizedTest
  @CsvSource({"sum", "hold", "pick"})
  void fiftySoundUnitsRaiseNoAlarm(String card) {
    Path plan = Cli.demonstration(folder, card);
    for (int seed = 1; seed <= 50; seed++) {
      Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--json", "--seed", seed);
      assertThat(cli.exitCode()).as("seed " + seed + " of " + card).isZero();
      assertThat(texts(json(cli).getAsJsonArray("missing"))).as("seed " + seed).isEmpty();
    }
  }

  /** Every lamp of every unit: none is overlooked in the whole bring-up. */
  @Test
  void everyLampIsFoundWhateverTheUnit() {
    Path plan = Cli.demonstration(folder, "sum");
    for (int bit = 0; bit < 12; bit++) {
      String lamp = "BIT[" + bit + "].L";
      Cli cli =
          Cli.run(
              "run",
              plan,
              "--fixture",
              SENSING,
              "--json",
              "--seed",
              100 + bit,
              "--fault",
              lamp + " dead");
      assertThat(texts(json(cli).getAsJsonArray("missing")))
          .containsExactly("one lamp fewer than expected: " + lamp);
    }
  }

  @Test
  void aSupplyThatSagsIsReportedAsThatAndNotAsSixteenWrongBits() throws IOException {
    Path plan = Cli.demonstration(folder, "sum");
    Path card = plan.resolveSibling("card.yaml");
    Files.writeString(card, Files.readString(card).replace("limit: 3 A", "limit: 1 A"));
    Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--json", "--only", "each cell");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.FAILED);
    JsonObject run = json(cli);
    assertThat(run.getAsJsonObject("verdicts").get("supply").getAsLong()).isPositive();
    assertThat(run.getAsJsonObject("verdicts").get("wrong").getAsLong()).isZero();
    JsonObject first = run.getAsJsonArray("failures").get(0).getAsJsonObject();
    assertThat(first.get("verdict").getAsString()).isEqualTo("supply");
    assertThat(first.get("why").getAsString())
        .contains("the supply fell to ", "below the 9 V that its relays operate from", "1 A");
    assertThat(first.getAsJsonArray("bits")).isEmpty();
    assertThat(cli.err()).contains("the supply came to its current limit");
  }

  @Test
  void aShortTripsAndNamesTheVector() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--fault", "S[3] bridged to GND");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.TRIPPED);
    assertThat(cli.out())
        .contains("SUPPLY  vector 5 at ", "the supply tripped")
        .contains("dropped every drive in vector 5 at ");
  }

  @Test
  void withoutTheSupplyEverythingIsDownAndTheWordIsLost() {
    Path plan = offAndOn();
    for (Object[] more : new Object[][] {{"--fixture", SENSING}, {"--unit", "02"}}) {
      Cli cli = Cli.run("run", plan, more[0], more[1], "--json");
      assertThat(cli.exitCode()).as(cli.err() + cli.out()).isZero();
      JsonObject run = json(cli);
      assertThat(run.getAsJsonObject("verdicts").get("pass").getAsLong()).isEqualTo(9);
      // the card's file says what power leaves in the register, so that is judged too
      assertThat(run.get("notJudgedBits").getAsLong()).isZero();
    }
    VectorRecord off = vectors(plan).get(3);
    assertThat(off.supply().railMv()).hasValue(0);
    assertThat(off.supply().currentMa()).hasValue(0);
    assertThat(off.driven()).isEqualTo(off.level()).matches(lines -> lines.isEmpty());
  }

  @Test
  void theSupplyMayBeLeftOn() {
    Path plan = offAndOn();
    Cli cli = Cli.run("run", plan, "--fixture", SENSING, "--keep-supply");
    assertThat(cli.err()).contains("supply is left on, as asked");
    assertThat(cli.out()).contains("9 vectors: 9 pass");
  }
}
