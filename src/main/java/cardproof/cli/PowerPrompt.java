package cardproof.cli;

import cardproof.card.Card;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.Console;
import java.math.BigDecimal;
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
  static boolean confirmed(Card card, Screen screen) {
    Console console = System.console();
    if (console == null) {
      throw new RefusedException(
          new Problem(
              "run",
              "a real card is about to be driven, and there is no terminal to ask at",
              "somebody's word that power and current limit are right",
              "Check them, then say so with --powered"));
    }
    checks(card).forEach(screen.err()::println);
    screen.err().flush();
    String answer = console.readLine("Is everything as above, and the card powered? (yes/no) ");
    return answer != null && answer.strip().toLowerCase(Locale.ROOT).equals("yes");
  }

  static List<String> checks(Card card) {
    String volts = trimmed(card.supply().millivolts()) + " V";
    String amps = trimmed(card.supply().limitMilliamps()) + " A";
    return List.of(
        "Before card " + card.name() + " is driven, check:",
        "  1. The ground lead between supply, card and fixture is on. It goes on first, comes off last.",
        "  2. A fuse is in the supply lead, polarity is right, every coil has its flyback diode.",
        "  3. The supply stands at "
            + volts
            + ", its current limit at no more than "
            + amps
            + "; at a card's first power start far lower.",
        "  4. This fixture cannot switch or see the supply: keep a hand at its switch.",
        "Mains wiring is for a licensed person, and local rules come before this list.");
  }

  private static String trimmed(long thousandths) {
    return BigDecimal.valueOf(thousandths, 3).stripTrailingZeros().toPlainString();
  }
}
