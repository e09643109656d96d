package cardproof.files.draft;

import cardproof.card.Bus;
import cardproof.plan.sight.LineFault;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;

/**
 * Words to try on a card: all at one level but one line, random ones with few and with many lines
 * on. Of a card that keeps something, lines that its states read change only while the line that is
 * pulsed is at rest, and one of the others at most is on: a word that changes while its load line
 * falls is a race on a real card.
 */
final class TrialWords {
  private static final int RANDOM = 40;

  /** Shares of lines that are on in random words, in 1/32. */
  private static final int[] SHARES = {16, 8, 24, 4, 28, 2, 30, 1, 31};

  /** Any will do; the same plan comes of the same card each time. */
  private static final long SEED = 1;

  private final DraftCard card;
  private final List<Bus> driven;
  private final SplittableRandom random = new SplittableRandom(SEED);

  TrialWords(DraftCard card) {
    this.card = card;
    this.driven = card.card().buses().stream().filter(bus -> bus.role().driven()).toList();
  }

  /**
   * @param witnesses levels that are known to show something
   * @param left faults that nothing shows so far
   */
  List<TrialWord> first(List<long[]> witnesses, List<LineFault> left) {
    List<long[]> words = new ArrayList<>(witnesses);
    long[] ones = card.rest();
    driven.forEach(bus -> ones[card.index(bus)] = bus.mask());
    for (long[] base : List.of(card.rest(), ones)) {
      words.add(base);
      words.addAll(oneChanged(base));
    }
    for (LineFault fault : left) {
      if (fault instanceof LineFault.Exchanged both) {
        words.add(changed(ones, both.line().busIndex(), 1L << both.line().bit()));
      }
    }
    for (int share : SHARES) {
      for (int i = 0; i < RANDOM; i++) {
        words.add(random(share));
      }
    }
    return trials(words);
  }

  /** Those that differ from one of these in one line. */
  List<TrialWord> around(List<TrialWord> useful) {
    List<long[]> words = new ArrayList<>();
    useful.forEach(word -> words.addAll(oneChanged(word.levels())));
    return trials(words);
  }

  private List<long[]> oneChanged(long[] base) {
    List<long[]> words = new ArrayList<>();
    for (Bus bus : driven) {
      for (int bit = 0; bit < bus.width(); bit++) {
        words.add(changed(base, card.index(bus), 1L << bit));
      }
    }
    return words;
  }

  private static long[] changed(long[] base, int bus, long bit) {
    long[] word = base.clone();
    word[bus] ^= bit;
    return word;
  }

  private long[] random(int share) {
    long[] word = card.rest();
    for (Bus bus : driven) {
      for (int bit = 0; bit < bus.width(); bit++) {
        word[card.index(bus)] |= random.nextInt(32) < share ? 1L << bit : 0;
      }
    }
    return word;
  }

  private List<TrialWord> trials(List<long[]> words) {
    if (!card.card().hasState()) {
      return words.stream().map(TrialWord::alone).toList();
    }
    List<Bus> controls = card.singleInputs().stream().filter(card::isReadByStates).toList();
    List<TrialWord> trials = new ArrayList<>();
    for (long[] word : words) {
      trials.add(
          TrialWord.alone(without(word, driven.stream().filter(card::isReadByStates).toList())));
      for (Bus pulsed : controls) {
        trials.add(TrialWord.pulsed(without(word, controls), pulsed, card.index(pulsed)));
        for (Bus on : controls) {
          long[] other = without(word, controls);
          other[card.index(on)] = 1;
          trials.add(TrialWord.pulsed(other, pulsed, card.index(pulsed)));
        }
      }
    }
    return trials;
  }

  private long[] without(long[] word, List<Bus> buses) {
    long[] rest = word.clone();
    buses.forEach(bus -> rest[card.index(bus)] = 0);
    return rest;
  }
}
