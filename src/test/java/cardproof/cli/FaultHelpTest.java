package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestWirings;
import cardproof.card.fault.FaultNames;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** What the help says can be asked can be asked. */
class FaultHelpTest {
  private static final Pattern QUOTED = Pattern.compile("'([^']+)'");

  private static List<String> forms() {
    return QUOTED
        .matcher(FaultNames.LINE_FORMS + FaultNames.WIRING_FORMS)
        .results()
        .map((MatchResult form) -> form.group(1))
        .toList();
  }

  @Test
  void helpAndManualShowEveryForm() {
    String help = Cli.run("run", "--help").out().replaceAll("\\s+", " ");
    String page = Cli.run("manual", "run").out().replaceAll("\\s+", " ");
    assertThat(forms()).hasSizeGreaterThan(15);
    assertThat(forms()).allSatisfy(form -> assertThat(help).contains("'" + form + "'"));
    assertThat(help).contains("', in 10 % of spells of 5 ms'");
    assertThat(page).contains(", in 10 % of spells of 5 ms");
  }

  /** With the names that the small card has in place of those in the examples. */
  @Test
  void everyFormIsReadOnACardThatHasSuchParts() {
    Card card = TestWirings.oneOfEach();
    assertThat(forms())
        .allSatisfy(
            form -> {
              String own =
                  form.replace("S[3]", "Y")
                      .replace("A[2]", "Q[0]")
                      .replace("A[3]", "Q[1]")
                      .replace("J2.7", "J2.1")
                      .replace("net X", "net z");
              assertThat(FaultNames.parse(own, card).name()).isNotEmpty();
            });
  }
}
