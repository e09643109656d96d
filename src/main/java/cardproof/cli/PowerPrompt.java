package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.CardReview;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.SupplySide;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.Console;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** What a person checks before a real card is driven, and the question that has to be answered. */
final class PowerPrompt {
  private PowerPrompt() {}

  /**
   * Asks at the terminal.
   *
   * @return whether the answer was yes
   * @throws RefusedException when there is no terminal to ask at
   */
  static boolean confirmed(Card card, FixtureProfile profile, Screen screen) {
    Console console = System.console();
    if (console == null) {
      throw new RefusedException(
          new Problem(
              "run",
              "a real card is about to be driven, and there is no terminal to ask at",
              "somebody's word that power and current limit are right",
              "Check them, then say so with --powered"));
    }
    checks(card, profile).forEach(screen.err()::println);
    screen.err().flush();
    String answer =
        console.readLine(
            profile.supply().canCut()
                ? "Is everything as above, and may the card be powered now? (yes/no) "
                : "Is everything as above, and the card powered? (yes/no) ");
    return answer != null && answer.strip().toLowerCase(Locale.ROOT).equals("yes");
  }

  static List<String> checks(Card card, FixtureProfile profile) {
    List<String> lines = new ArrayList<>();
    lines.add("Before card " + card.name() + " is driven, check:");
    int number = 1;
    for (String caution : FirstPower.cautions()) {
      lines.add("  " + number++ + ". " + sentence(caution));
    }
    lines.add(
        "  "
            + number++
            + ". The supply stands at "
            + trimmed(card.supply().millivolts())
            + " V, its current limit at no more than "
            + trimmed(card.supply().limitMilliamps())
            + " A"
            + (card.wiring().isPresent() ? "." : "; at a card's first power start far lower."));
    CardReview.of(card, profile.driveMilliamps())
        .map(review -> FirstPower.of(card, review.currents()))
        .ifPresent(power -> power.figures().forEach(f -> lines.add("     " + sentence(f))));
    lines.add("  " + number + ". " + supply(profile.supply()));
    lines.add("Mains wiring is for a licensed person, and local rules come before this list.");
    return List.copyOf(lines);
  }

  private static String supply(SupplySide supply) {
    if (supply.canCut()) {
      return "This fixture switches the supply: on once you have answered, off when the run ends. It"
          + " stays on if this program is killed: keep a hand at the supply's own switch.";
    }
    return supply.canSee()
        ? "This fixture cannot switch the supply: keep a hand at its switch."
        : "This fixture cannot switch or see the supply: keep a hand at its switch.";
  }

  private static String sentence(String text) {
    return Character.toUpperCase(text.charAt(0)) + text.substring(1) + ".";
  }

  private static String trimmed(long thousandths) {
    return BigDecimal.valueOf(thousandths, 3).stripTrailingZeros().toPlainString();
  }
}
