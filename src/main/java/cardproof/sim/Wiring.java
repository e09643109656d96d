package cardproof.sim;

import cardproof.card.Card;
import cardproof.card.fault.Fault;
import cardproof.card.fault.LineStuck;
import cardproof.card.fault.LinesExchanged;
import java.util.BitSet;
import java.util.List;

/**
 * The wires between the fixture's end of each line and the card's, with what is wrong with them.
 *
 * <p>A stuck line is stuck at the card's connector: an input that is stuck is what the card sees,
 * an output that is stuck is what the fixture sees, a shared line both. What a card drives on its
 * own shared line it also sees itself, even where that line is stuck at ground.
 */
final class Wiring {
  private final int[] cardEnd;
  private final int[] fixtureEnd;
  private final BitSet stuck = new BitSet();
  private final BitSet stuckAtSupply = new BitSet();

  Wiring(Card card, List<Fault> faults) {
    int lines = card.lines().size();
    cardEnd = new int[lines];
    fixtureEnd = new int[lines];
    for (int line = 0; line < lines; line++) {
      cardEnd[line] = line;
    }
    for (Fault fault : faults) {
      put(fault);
    }
    for (int line = 0; line < lines; line++) {
      fixtureEnd[cardEnd[line]] = line;
    }
  }

  private void put(Fault fault) {
    if (fault instanceof LineStuck one) {
      stuck.set(one.line().index());
      stuckAtSupply.set(one.line().index(), one.atSupply());
    } else if (fault instanceof LinesExchanged two) {
      int first = two.first().index();
      int second = two.second().index();
      int kept = cardEnd[first];
      cardEnd[first] = cardEnd[second];
      cardEnd[second] = kept;
    } else {
      throw new IllegalArgumentException("fault not known to this simulation: " + fault.name());
    }
  }

  /** The card's line that the fixture's line is joined to. */
  int cardEnd(int fixtureLine) {
    return cardEnd[fixtureLine];
  }

  /** The fixture's line that the card's line is joined to. */
  int fixtureEnd(int cardLine) {
    return fixtureEnd[cardLine];
  }

  /** What stands on a line of the card that would carry {@code level} if it were sound. */
  boolean at(int cardLine, boolean level) {
    return stuck.get(cardLine) ? stuckAtSupply.get(cardLine) : level;
  }
}
