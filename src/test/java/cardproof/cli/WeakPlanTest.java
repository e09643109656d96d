package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
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

/** What {@code check} says of a plan, held against runs of that plan on cards with faults. */
class WeakPlanTest {
  @TempDir private Path folder;

  private static JsonObject check(Path plan) {
    return JsonParser.parseString(Cli.run("check", plan, "--json").out()).getAsJsonObject();
  }

  /** {@code LINE stuck at ...} for every line that check says no vector would notice. */
  private static List<String> unnoticed(JsonObject check) {
    List<String> faults = new ArrayList<>();
    for (JsonElement element : check.getAsJsonArray("gaps")) {
      JsonObject gap = element.getAsJsonObject();
      String kind = gap.get("kind").getAsString();
      for (JsonElement line : gap.getAsJsonArray("lines")) {
        String name = line.getAsJsonObject().get("line").getAsString();
        if (kind.endsWith("expected 1") || kind.endsWith("never driven 1")) {
          faults.add(name + " stuck at ground");
        }
        if (kind.endsWith("expected 0") || kind.endsWith("never driven 0")) {
          faults.add(name + " stuck at supply");
        }
      }
    }
    return faults;
  }

  @Test
  void aFaultThatCheckSaysGoesUnnoticedDoes() {
    Path sum = Path.of("vectors", "sum", "card.yaml").toAbsolutePath();
    Path weak = Path.of("src", "test", "resources", "cli", "weak.yaml");
    List<String> faults = unnoticed(check(weak));
    assertThat(faults)
        .contains("S[11] stuck at ground", "CO stuck at ground", "A[8] stuck at ground")
        .contains("B[1] stuck at ground")
        .hasSize(17);
    assertThat(sum).exists();
    Path log = folder.resolve("log.sqlite");
    for (String fault : List.of(faults.get(0), faults.get(4), faults.get(5), faults.get(16))) {
      Cli blind = Cli.run("run", weak, "--log", log, "--fault", fault);
      assertThat(blind.exitCode()).as(fault + " under the weak plan").isZero();
      Path whole = Cli.demonstration(newFolder(fault), "sum");
      Cli seeing = Cli.run("run", whole, "--fault", fault);
      assertThat(seeing.exitCode()).as(fault + " under the whole plan").isEqualTo(1);
    }
  }

  /** A step that is dropped leaves a gap that check names. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "hold | each: {D: {random: 12, seed: 99}}"
            + " | D[10] (J2.11), D[8:7] (J2.9 to J2.8), D[5] (J2.6), D[3:2] (J2.4 to J2.3) go to 1"
            + " only while the fixture drives them there",
        "hold | pulse: {LD: 1}" + " | R[11:0] of the card's state are known from power-on alone",
        "hold | drive: {SEL: 1} ^ pulse: {SEL: 1}"
            + " | SEL (J1.2) is never driven to 1: no vector would notice it stuck at ground",
      })
  void aDroppedStepIsMissed(String card, String dropped, String said) throws IOException {
    Path plan = Cli.demonstration(folder, card);
    assertThat(Cli.run("check", plan).out()).doesNotContain("left untried");
    String text = Files.readString(plan);
    for (String drive : dropped.split(" \\^ ")) {
      assertThat(text).contains(drive);
      text = text.replace(drive, drive.replaceAll("\\{(\\w+): .*", "{$1: 0}"));
    }
    Files.writeString(plan, text.replaceAll("(?m)^    expect: .D: 0xA53.*$", ""));
    assertThat(Cli.run("check", plan).out()).contains("left untried").contains(said);
  }

  @ParameterizedTest
  @CsvSource({"sum", "hold"})
  void theEstimateIsNearWhatTheSimulatedBenchTakes(String card) throws IOException {
    Path plan = Cli.demonstration(folder, card);
    JsonObject cost = check(plan).getAsJsonObject("cost");
    JsonObject run = JsonParser.parseString(Cli.run("run", plan, "--json").out()).getAsJsonObject();
    double cardMs = run.get("cardMs").getAsDouble();
    assertThat(cost.get("expectedMs").getAsDouble()).isBetween(0.75 * cardMs, 1.25 * cardMs);
    assertThat(cost.get("atMostMs").getAsDouble()).isGreaterThan(cardMs);
  }

  private Path newFolder(String name) {
    Path made = folder.resolve(name.replaceAll("\\W", "-"));
    assertThat(made.toFile().mkdir()).isTrue();
    return made;
  }
}
