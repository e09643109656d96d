package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import java.util.Locale;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What {@code check} prints, whole, and the same whatever the locale. */
class CheckGoldensTest {
  private static final Path RESOURCES = Path.of("src", "test", "resources", "cli");

  private Locale before;

  @BeforeEach
  void keepLocale() {
    before = Locale.getDefault();
  }

  @AfterEach
  void putLocaleBack() {
    Locale.setDefault(before);
  }

  /** Decimal comma, digits of another script, and an i without its dot. */
  @ParameterizedTest
  @ValueSource(strings = {"en-GB", "de-DE", "ar-EG-u-nu-arab", "tr-TR"})
  void everyOutputIsTheSameInEveryLocale(String locale) {
    Locale.setDefault(Locale.forLanguageTag(locale));
    for (String name : new String[] {"weak", "unset"}) {
      Path plan = RESOURCES.resolve(name + ".yaml");
      Golden.assertSame(name + ".txt", out(plan));
      Golden.assertSame(name + ".json", out(plan, "--json"));
      Golden.assertSame(name + "-list.txt", out(plan, "--list"));
      Golden.assertSame(name + "-list.csv", out(plan, "--list", "--csv"));
      Golden.assertSame(name + "-list.json", out(plan, "--list", "--json"));
    }
    for (String card : new String[] {"ripple-card", "faulty-card"}) {
      Golden.assertSame(card + ".txt", card(card));
      Golden.assertSame(card + ".json", card(card, "--json"));
    }
    Path ripple = RESOURCES.resolve("ripple.yaml");
    Golden.assertSame("ripple.txt", out(ripple));
    Golden.assertSame("ripple.json", out(ripple, "--json"));
    Path hold = Path.of("vectors", "hold", "bring-up.yaml");
    Golden.assertSame("hold.txt", out(hold));
    Golden.assertSame("hold-list.csv", out(hold, "--list", "--csv"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"weak", "unset"})
  void theListIsOneArrayWithAnObjectForEachVector(String name) {
    Path plan = RESOURCES.resolve(name + ".yaml");
    JsonArray vectors = JsonParser.parseString(out(plan, "--list", "--json")).getAsJsonArray();
    JsonObject overview = JsonParser.parseString(out(plan, "--json")).getAsJsonObject();
    assertThat(vectors.size()).isEqualTo(overview.get("vectors").getAsInt());
    long audits = 0;
    for (int i = 0; i < vectors.size(); i++) {
      JsonObject vector = vectors.get(i).getAsJsonObject();
      assertThat(vector.get("vector").getAsLong()).isEqualTo(i + 1);
      audits += vector.get("audit").getAsBoolean() ? 1 : 0;
    }
    assertThat(audits).isEqualTo(overview.getAsJsonObject("cost").get("audits").getAsLong());
  }

  /** What is wrong with a card's wiring is in the exit code too. */
  private static String card(String name, String... options) {
    Cli cli = check(RESOURCES.resolve(name + ".yaml"), options);
    assertThat(cli.exitCode())
        .isEqualTo(name.equals("faulty-card") ? ExitCode.USAGE : ExitCode.PASSED);
    assertThat(cli.err()).isEmpty();
    return cli.out();
  }

  private static String out(Path plan, String... options) {
    Cli cli = check(plan, options);
    assertThat(cli.exitCode()).as(cli.err()).isZero();
    return cli.out();
  }

  private static Cli check(Path file, String... options) {
    Object[] words = new Object[options.length + 2];
    words[0] = "check";
    words[1] = file;
    System.arraycopy(options, 0, words, 2, options.length);
    return Cli.run(words);
  }
}
