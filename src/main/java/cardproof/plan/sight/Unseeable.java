package cardproof.plan.sight;

import cardproof.bits.Values;
import cardproof.card.Behaviour;
import cardproof.card.Card;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/**
 * Faults that no plan can find, proved by going through everything: a fault is unseeable when with
 * every word on the lines, and every content of the states, it leaves all that is watched and every
 * next state as they were. Done where that takes a few seconds at most; else only faults of lines
 * that the behaviour does not read are told. Of a card with state a fault that is not proved so may
 * still be unseeable, because the state in which it would show is never reached.
 *
 * @param proved faults that no plan can find
 * @param witnesses for the others, levels by bus index that show them on a card without state;
 *     empty where not everything was gone through
 */
public record Unseeable(List<LineFault> proved, Map<LineFault, long[]> witnesses) {
  /** Words taken through the behaviour, sound and with faults. */
  private static final long MOST_TRIED = 4_000_000;

  /** An int holds a word. */
  private static final int MOST_BITS = 30;

  /**
   * Some bits of a bus or state that a word is made of.
   *
   * @param slot of the card's scope
   * @param shift where they begin in the word
   */
  private record Part(int slot, int width, int shift) {
    long of(int word) {
      return word >>> shift & (1L << width) - 1;
    }
  }

  /**
   * What one word leads to.
   *
   * @param next values and unknown bits of the states
   */
  private record Outcome(long[] value, long[] known, long[] next) {
    boolean same(Outcome other) {
      return Arrays.equals(value, other.value)
          && Arrays.equals(known, other.known)
          && Arrays.equals(next, other.next);
    }
  }

  /** A card of which words are gone through. */
  private static final class Words {
    private final Card card;
    private final Behaviour behaviour;
    private final Watched watched;
    private final Values state;
    private final List<Part> parts = new ArrayList<>();
    private int bits;

    Words(Card card) {
      this.card = card;
      this.behaviour = card.behaviour().orElseThrow();
      this.watched = new Watched(card);
      this.state = new Values(behaviour.scope().size());
      for (int b = 0; b < card.buses().size(); b++) {
        if (card.buses().get(b).role().driven() && !unread(b)) {
          add(b, card.buses().get(b).width());
        }
      }
      for (int i = 0; i < behaviour.states().size(); i++) {
        add(card.buses().size() + i, behaviour.states().get(i).width());
      }
    }

    private void add(int slot, int width) {
      parts.add(new Part(slot, width, bits));
      bits += width;
    }

    /** Neither outputs nor states hang on a bus, and nobody watches it. */
    boolean unread(int b) {
      return !behaviour.isRead(b) && !card.buses().get(b).role().watched();
    }

    boolean unread(LineFault fault) {
      return unread(fault.line().busIndex())
          && (!(fault instanceof LineFault.Exchanged both) || unread(both.other().busIndex()));
    }

    long[] levels(int word) {
      long[] levels = new long[card.buses().size()];
      for (Part part : parts) {
        if (part.slot() < levels.length) {
          levels[part.slot()] = part.of(word);
        }
      }
      return levels;
    }

    /**
     * @param driven what arrives at the card
     */
    Outcome outcome(int word, long[] driven) {
      for (Part part : parts) {
        state.set(part.slot(), part.of(word), 0);
      }
      watched.round(driven, state);
      Watched.Seen seen = watched.seen();
      long[] next =
          IntStream.range(card.buses().size(), state.size())
              .mapToObj(slot -> new long[] {state.value(slot), state.unknown(slot)})
              .flatMapToLong(Arrays::stream)
              .toArray();
      return new Outcome(seen.value(), seen.known(), next);
    }

    boolean shows(LineFault fault, int word, long[] levels, Outcome sound) {
      long[] arriving = fault.through(levels);
      boolean seenToo = fault.line().bus().role().watched();
      if (arriving == levels && !seenToo) {
        return false;
      }
      Outcome faulty = outcome(word, arriving);
      return !sound.same(
          seenToo
              ? new Outcome(
                  fault.through(faulty.value()), fault.throughKnown(faulty.known()), faulty.next())
              : faulty);
    }
  }

  /**
   * @param card with a behaviour
   * @param faults of its lines
   */
  public static Unseeable among(Card card, List<LineFault> faults) {
    Words words = new Words(card);
    List<LineFault> proved = new ArrayList<>(faults.stream().filter(words::unread).toList());
    List<LineFault> open = new ArrayList<>(faults);
    open.removeAll(proved);
    Map<LineFault, long[]> witnesses = new LinkedHashMap<>();
    if (words.bits <= MOST_BITS && (1L << words.bits) * (1 + open.size()) <= MOST_TRIED) {
      for (int word = 0; word < 1 << words.bits; word++) {
        long[] levels = words.levels(word);
        Outcome sound = words.outcome(word, levels);
        for (Iterator<LineFault> left = open.iterator(); left.hasNext(); ) {
          LineFault fault = left.next();
          if (words.shows(fault, word, levels, sound)) {
            witnesses.put(fault, levels);
            left.remove();
          }
        }
      }
      proved.addAll(open);
    }
    return new Unseeable(List.copyOf(proved), witnesses);
  }
}
