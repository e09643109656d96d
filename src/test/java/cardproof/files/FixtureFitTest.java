package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.CardReview;
import cardproof.card.wiring.review.Review;
import cardproof.fixture.DriveCurrents;
import cardproof.fixture.FixtureFit;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The demonstration cards on fixtures that suit them and fixtures that do not. */
class FixtureFitTest {
  @TempDir private Path folder;

  private static Card card(String name) {
    return CardFile.read(Path.of("vectors", name, "card.yaml")).value();
  }

  private FixtureProfile profile(String drives, String watches) {
    Path file = folder.resolve("fixture.yaml");
    String text =
        "fixture: bench\nkind: serial\n"
            + ("drives: {count: 64" + drives + "}\n")
            + ("watches: {count: 64" + watches + "}\n");
    try {
      Files.writeString(file, text);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return FixtureFile.read(file).value();
  }

  private FixtureFit fit(String card, String drives, String watches) {
    return FixtureFit.of(card(card), profile(drives, watches));
  }

  private List<String> words(List<Problem> problems) {
    String file = folder.resolve("fixture.yaml").toString();
    return problems.stream().map(problem -> problem.toString().replace(file, "F")).toList();
  }

  @ParameterizedTest
  @ValueSource(strings = {"sum", "hold", "hour", "pick", "store"})
  void everyDemonstrationCardSuitsThePlainBoard(String card) {
    FixtureProfile plain = FixtureFile.read(Path.of("fixtures", "plain-32.yaml")).value();
    assertThat(FixtureFit.of(card(card), plain).errors()).isEmpty();
  }

  @Test
  void nothingIsSaidOfWhatIsNotStated() {
    FixtureFit fit = fit("hold", "", "");
    assertThat(fit.errors()).isEmpty();
    assertThat(fit.warnings()).isEmpty();
  }

  /** A lamp of 40 mA and a watch of 10 mA, beside a PT coil of 12 V, 192 ohm (TE Schrack PT). */
  @Test
  void aLoadLighterThanTheRacksIsWarnedOf() throws IOException {
    String sum = Files.readString(Path.of("vectors", "sum", "card.yaml"));
    Path file = Files.createDirectories(folder.resolve("sum")).resolve("card.yaml");
    Files.copy(Path.of("vectors", "relays.yaml"), folder.resolve("relays.yaml"));
    Files.writeString(file, sum.replace("at: J4.1-12}", "at: J4.1-12, rack-load: 63 mA}"));
    Card card = CardFile.read(file).value();
    String ten = ", load: 10 mA";
    assertThat(words(FixtureFit.of(card, profile("", ten)).warnings()))
        .containsExactly(
            "F:4:10: lines of S carry 50 mA on this bench and 63 mA in the rack. A contact or joint"
                + " that is only just good may pass here and fail there: put what is missing on those"
                + " lines for the bring-up.");
    assertThat(FixtureFit.of(card, profile("", ", load: 23 mA")).warnings()).isEmpty();
    assertThat(FixtureFit.of(card, profile("", "")).warnings()).isEmpty();
    assertThat(fit("sum", "", ten).warnings()).isEmpty();
  }

  @Test
  void sinkingDrivesAreRefused() {
    FixtureFit fit = fit("sum", ", kind: sink", "");
    assertThat(words(fit.errors()))
        .containsExactly(
            "F:3:9: the drives of fixture 'bench' sink; wanted drives that source: a line of card"
                + " sum is 1 when it is joined to +12 V. Use high-side drivers, and kind: source.");
    assertThatThrownBy(fit::refuseIfWrong).isInstanceOf(RefusedException.class);
  }

  @Test
  void pushPullIsAShortOnASharedBusUnlessItIsLimited() {
    assertThat(words(fit("hold", ", kind: push-pull", "").errors()))
        .singleElement()
        .asString()
        .contains("would short the supply of card hold", "D[0] and 11 more", "limited: 15 mA");
    FixtureFit limited = fit("hold", ", kind: push-pull, limited: 15 mA", "");
    assertThat(limited.errors()).isEmpty();
    assertThat(words(limited.warnings())).singleElement().asString().contains("15 mA flow then");
  }

  @Test
  void pushPullSuitsACardThatFeedsNoneOfItsInputs() {
    assertThat(fit("sum", ", kind: push-pull", "").errors()).isEmpty();
  }

  @Test
  void voltagesMustGoTogether() {
    assertThat(words(fit("sum", ", voltage: {least: 15 V, most: 30 V}", "").errors()))
        .containsExactly(
            "F:3:9: the drives need at least 15 V; wanted 12 V, the supply of card sum. Use"
                + " drivers for that voltage.");
    assertThat(words(fit("sum", ", voltage: {most: 5 V}", ", voltage: 5 V").errors()))
        .hasSize(2)
        .allSatisfy(words -> assertThat(words).contains("bear at most 5 V"));
    assertThat(words(fit("sum", "", ", low: 5 V, high: 15 V").errors()))
        .singleElement()
        .asString()
        .contains("need not read 1");
  }

  /** Common practice: a sneak path leaves 4 to 8 V on a 12 V line. */
  @Test
  void weakLevelsAreWarnedOfWhereTheyWouldNotReadAsNothing() {
    assertThat(words(fit("sum", "", ", low: 3 V, high: 7 V").warnings()))
        .singleElement()
        .asString()
        .contains("a weak level, 4 V to 8 V, reads 0 or 1, by chance");
    assertThat(words(fit("sum", "", ", low: 1 V, high: 2.5 V").warnings()))
        .singleElement()
        .asString()
        .contains("reads 1 like a full one");
    assertThat(fit("sum", "", ", low: 8 V, high: 9 V").warnings()).isEmpty();
    assertThat(fit("sum", "", ", kind: analogue, low: 3 V, high: 7 V").warnings()).isEmpty();
  }

  @Test
  void undefinedOutputsAskForPullDowns() {
    assertThat(words(fit("sum", ", at-reset: undefined", "").warnings()))
        .singleElement()
        .asString()
        .contains("pull-down");
  }

  /** TE Schrack PT data sheet: least contact load 12 V, 10 mA. The lamps of sum draw 40 mA. */
  @Test
  void dryContactsAreWarnedOf() {
    assertThat(fit("sum", "", ", load: 2 mA").warnings()).isEmpty();
    assertThat(words(fit("hold", "", ", load: 2 mA").warnings()))
        .singleElement()
        .asString()
        .contains("carry 2 mA at 12 V", "PT-4-12V want at least 10 mA at 12 V");
    assertThat(fit("hold", "", ", load: 10 mA").warnings()).isEmpty();
    assertThat(fit("hold", "", ", load: 1.2 kohm").warnings()).isEmpty(); // 10 mA by Ohm's law
  }

  /** 12 V over 192 ohm, the coil of a PT relay, is 62.5 mA. */
  @Test
  void channelsChipsAndTheWholeAreAddedUp() {
    String limits = ", current: 60 mA, groups: {of: 8, current: 180 mA}, held: 4";
    Card sum = card("sum");
    DriveCurrents currents = currents(sum, profile(limits, ""));
    drive(currents, sum, 0b0000_0111, 0, "two");
    drive(currents, sum, 0b1111_1000, 0, "five");
    drive(currents, sum, 0, 0, "none");
    List<String> words = words(currents.problems());
    assertThat(words).hasSize(8 + 2);
    assertThat(words.get(0))
        .isEqualTo(
            "F:3:9: line A[0] on D0 draws 62.5 mA in vector two; wanted at most 60 mA from one"
                + " drive. Use stronger drives, or let a relay of the card switch the load.");
    assertThat(words.get(8))
        .isEqualTo(
            "F:3:9: the 5 drives on among D0 to D7 draw 312.5 mA in vector five; wanted at most"
                + " 180 mA from one driver chip. Use stronger drivers, or drive fewer of these"
                + " lines at once.");
    assertThat(words.get(9)).contains("5 drives are on in vector five; wanted at most 4 at once");
  }

  @Test
  void releasedLinesCarryNothing() {
    Card sum = card("sum");
    DriveCurrents currents = currents(sum, profile(", current: 60 mA, held: 1", ""));
    long[] all = new long[sum.buses().size()];
    long[] none = new long[sum.buses().size()];
    all[0] = 0xFFF;
    currents.take(all, none, () -> "released");
    assertThat(currents.problems()).isEmpty();
  }

  private static DriveCurrents currents(Card card, FixtureProfile profile) {
    Review review = CardReview.of(card, 0).orElseThrow();
    return new DriveCurrents(HookUp.of(card, profile), review.loads());
  }

  private static void drive(DriveCurrents currents, Card card, long a, long b, String where) {
    long[] level = new long[card.buses().size()];
    level[card.busIndex("A")] = a;
    level[card.busIndex("B")] = b;
    currents.take(level, level, () -> where);
  }
}
