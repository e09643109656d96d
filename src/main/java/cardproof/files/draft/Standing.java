package cardproof.files.draft;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.files.draft.StepSight.Sight;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;

/**
 * What the inputs stand at that a step does not move: of many settings the simplest of those with
 * which the step finds most.
 *
 * @param levels by bus index
 * @param sight what the step finds with them
 */
record Standing(long[] levels, Sight sight) {
  private static final int MOST_COMBINED = 6;
  private static final int RANDOM = 32;

  /** Any will do; the same plan comes of the same card each time. */
  private static final long SEED = 1;

  /** Nothing driven, and nothing known of what the step finds. */
  static Standing rest(Card card) {
    return new Standing(new long[card.buses().size()], Sight.NONE);
  }

  /**
   * @param free indexes of the input buses that may be set
   */
  static Standing best(Card card, List<Integer> free, StepSight step) {
    Standing best = rest(card);
    for (long[] setting : settings(card, free)) {
      Sight sight = step.with(setting);
      if (sight.betterThan(best.sight())) {
        best = new Standing(setting, sight);
      }
    }
    return best;
  }

  /** The simplest first. */
  private static List<long[]> settings(Card card, List<Integer> free) {
    List<long[]> settings = new ArrayList<>();
    settings.add(new long[card.buses().size()]);
    for (int b : free) {
      Bus bus = card.buses().get(b);
      for (int bit = 0; bit < bus.width(); bit++) {
        settings.add(with(card, b, 1L << bit));
      }
      settings.add(with(card, b, bus.mask()));
    }
    combinations(card, free, settings);
    long[] all = new long[card.buses().size()];
    free.forEach(b -> all[b] = card.buses().get(b).mask());
    settings.add(all);
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < RANDOM && !free.isEmpty(); i++) {
      long[] some = new long[card.buses().size()];
      free.forEach(b -> some[b] = random.nextLong() & card.buses().get(b).mask());
      settings.add(some);
    }
    return settings;
  }

  /** Of the single lines, where they are few; with fewer lines on before more. */
  private static void combinations(Card card, List<Integer> free, List<long[]> settings) {
    List<Integer> single = free.stream().filter(b -> card.buses().get(b).width() == 1).toList();
    if (single.size() > MOST_COMBINED) {
      return;
    }
    List<long[]> combined = new ArrayList<>();
    for (int word = 0; word < 1 << single.size(); word++) {
      long[] setting = new long[card.buses().size()];
      for (int i = 0; i < single.size(); i++) {
        setting[single.get(i)] = word >> i & 1;
      }
      combined.add(setting);
    }
    combined.sort(Comparator.comparingLong(Standing::on));
    settings.addAll(combined);
  }

  private static long on(long[] setting) {
    long on = 0;
    for (long level : setting) {
      on += Long.bitCount(level);
    }
    return on;
  }

  private static long[] with(Card card, int bus, long level) {
    long[] setting = new long[card.buses().size()];
    setting[bus] = level;
    return setting;
  }
}
