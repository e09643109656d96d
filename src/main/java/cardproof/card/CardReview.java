package cardproof.card;

import cardproof.card.wiring.Wiring;
import cardproof.card.wiring.review.Chains;
import cardproof.card.wiring.review.EdgeLine;
import cardproof.card.wiring.review.OpposedLines;
import cardproof.card.wiring.review.Review;
import cardproof.card.wiring.review.ReviewSettings;
import cardproof.card.wiring.review.Wetting;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/** Looks a card's wiring over, with what the card knows of its lines. */
public final class CardReview {
  private CardReview() {}

  /**
   * @param driveMilliamps what one drive of the fixture gives; 0 where not known
   * @return empty where the wiring of the card is not known
   */
  public static Optional<Review> of(Card card, long driveMilliamps) {
    ReviewSettings settings = new ReviewSettings(card.supply().millivolts(), driveMilliamps);
    return card.wiring().map(wiring -> Review.of(wiring, lines(card.buses()), settings));
  }

  /** How relays hang on one another; empty where the wiring of the card is not known. */
  public static Optional<Chains> chains(Card card) {
    return card.wiring().map(wiring -> chains(wiring, card.buses()));
  }

  /**
   * @param buses whose lines, in order, are the wiring's
   */
  public static Chains chains(Wiring wiring, List<Bus> buses) {
    return Chains.of(wiring, lines(buses));
  }

  /**
   * Driven lines that the card may hold at its supply; where its wiring is not known, the shared.
   */
  public static BitSet opposedLines(Card card) {
    BitSet shared = new BitSet();
    card.lines().stream()
        .filter(line -> line.bus().role() == Role.SHARED)
        .forEach(line -> shared.set(line.index()));
    card.wiring().ifPresent(wiring -> shared.or(OpposedLines.of(wiring, lines(card.buses()))));
    return shared;
  }

  /** What contacts at watched lines carry; empty where the wiring of the card is not known. */
  public static List<Wetting> wetting(Card card) {
    return card.wiring()
        .map(wiring -> Wetting.of(wiring, lines(card.buses()), card.supply().millivolts()))
        .orElse(List.of());
  }

  private static List<EdgeLine> lines(List<Bus> buses) {
    return buses.stream()
        .flatMap(
            bus ->
                IntStream.range(0, bus.width())
                    .mapToObj(
                        bit ->
                            new EdgeLine(
                                bus.lineName(bit),
                                bus.pins().get(bit).toString(),
                                bus.role().driven(),
                                bus.role().watched(),
                                bus.at())))
        .toList();
  }
}
