package cardproof.run;

import cardproof.card.Card;
import cardproof.card.wiring.Relay;
import cardproof.fixture.SupplySeen;
import cardproof.log.Verdict;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Whether the supply held in the course of a vector. One that fell below what the relays need, or
 * that came to its limit, makes any line say anything, so nothing else is judged then.
 *
 * <p>How low it may fall is what the card's file says; else what the most demanding relay of the
 * wiring operates from; else 80 % of the voltage, the lower end of the operative range of class 1
 * in IEC 61810-1 (from memory).
 */
final class SupplyJudge {
  private static final double CLASS_1 = 0.8;

  /** A current within a hundredth of the limit is the limit, to any meter of a bench supply. */
  private static final double AT_LIMIT = 0.99;

  /** A supply that still holds its voltage to within this part does no harm at its limit. */
  private static final double HELD = 0.98;

  /** What is left of a supply that is off: no relay holds with less. */
  private static final double GONE = 0.1;

  private final long nominalMv;
  private final long leastMv;
  private final long limitMa;
  private final String whose;

  SupplyJudge(Card card) {
    nominalMv = card.supply().millivolts();
    limitMa = card.supply().limitMilliamps();
    if (card.supply().leastMillivolts().isPresent()) {
      leastMv = card.supply().leastMillivolts().getAsLong();
      whose = "that the card's file asks for";
    } else if (card.wiring().filter(wiring -> !wiring.relays().isEmpty()).isPresent()) {
      leastMv =
          card.wiring().get().relays().stream()
              .map(Relay::type)
              .mapToLong(type -> type.coilMillivolts() * type.operatePercent() / 100)
              .max()
              .orElseThrow();
      whose = "that its relays operate from";
    } else {
      leastMv = Math.round(CLASS_1 * card.supply().millivolts());
      whose = "(80 %) that relays are made for";
    }
  }

  /** What is wrong with the supply, in words; empty where it held, or is not measured. */
  Optional<String> trouble(SupplySeen seen) {
    List<String> words = new ArrayList<>();
    if (seen.lowestRailMv().isPresent() && seen.lowestRailMv().getAsInt() < leastMv) {
      words.add(
          "the supply fell to "
              + volts(seen.lowestRailMv().getAsInt())
              + ", below the "
              + volts(leastMv)
              + " "
              + whose);
    }
    boolean held =
        seen.lowestRailMv().isPresent() && seen.lowestRailMv().getAsInt() > HELD * nominalMv;
    if (!held
        && seen.highestCurrentMa().isPresent()
        && seen.highestCurrentMa().getAsInt() >= AT_LIMIT * limitMa) {
      words.add(
          (words.isEmpty() ? "the supply gave " : "it gave ")
              + amps(seen.highestCurrentMa().getAsInt())
              + ", its limit being "
              + amps(limitMa));
    }
    return words.isEmpty() ? Optional.empty() : Optional.of(String.join("; ", words));
  }

  /** The verdict where the supply did not hold. */
  Optional<Judgement> judge(SupplySeen seen) {
    return trouble(seen)
        .map(
            words ->
                new Judgement(
                    Verdict.SUPPLY, words + "; what the lines did is not judged", List.of()));
  }

  /** The verdict where it is switched off, and still there. */
  Optional<Judgement> judgeOff(SupplySeen seen) {
    boolean up = seen.railMv().isPresent() && seen.railMv().getAsInt() > GONE * nominalMv;
    return up
        ? Optional.of(
            new Judgement(
                Verdict.SUPPLY,
                "the supply is switched off, and "
                    + volts(seen.railMv().getAsInt())
                    + " still stand at the card",
                List.of()))
        : Optional.empty();
  }

  static Judgement tripped(SupplySeen seen) {
    String most =
        seen.highestCurrentMa().isPresent()
            ? ", having given " + amps(seen.highestCurrentMa().getAsInt())
            : "";
    return new Judgement(
        Verdict.SUPPLY, "the supply tripped" + most + "; every drive was dropped", List.of());
  }

  static String volts(long millivolts) {
    return BigDecimal.valueOf(millivolts, 3).stripTrailingZeros().toPlainString() + " V";
  }

  static String amps(long milliamps) {
    return milliamps < 1_000
        ? milliamps + " mA"
        : BigDecimal.valueOf(milliamps, 3).stripTrailingZeros().toPlainString() + " A";
  }
}
