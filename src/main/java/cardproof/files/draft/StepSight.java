package cardproof.files.draft;

import cardproof.card.BehaviourModel;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.card.Role;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.UnaryOperator;

/**
 * What a step would notice of faults of the lines it moves, by the card's behaviour: each line
 * stuck at ground or at supply, and lines next to each other exchanged. Every state is taken as
 * unknown before the step, and a bit counts only where it is known both of a sound card and of a
 * faulty one. Not thread safe.
 */
final class StepSight {
  /**
   * One line that the step moves.
   *
   * @param bus its index
   */
  record Moved(int bus, long bit) {}

  /**
   * @param found faults that some vector would show
   * @param of faults looked for
   * @param words different sets of known outputs
   * @param neighbours whether lines exchanged were among them
   */
  record Sight(int found, int of, int words, boolean neighbours) {
    static final Sight NONE = new Sight(0, 0, 0, false);

    boolean betterThan(Sight other) {
      return found != other.found ? found > other.found : words > other.words;
    }
  }

  private final Card card;
  private final BehaviourModel model;
  private final List<Moved> moved;
  private final List<long[]> vectors;

  /**
   * @param card with a behaviour
   * @param vectors of the step: levels by bus index, 0 for what it does not move itself
   */
  StepSight(Card card, List<Moved> moved, List<long[]> vectors) {
    this.card = card;
    this.model = new BehaviourModel(card);
    this.moved = List.copyOf(moved);
    this.vectors = List.copyOf(vectors);
  }

  /**
   * @param standing levels by bus index of what the step does not move
   */
  Sight with(long[] standing) {
    List<long[]> sound;
    try {
      sound = shown(standing, levels -> levels);
    } catch (NeverRestsException never) {
      return Sight.NONE;
    }
    int found = 0;
    int of = 0;
    boolean neighbours = false;
    for (int i = 0; i < moved.size(); i++) {
      Moved line = moved.get(i);
      found += finds(sound, standing, levels -> stuck(levels, line, false), -1);
      found += finds(sound, standing, levels -> stuck(levels, line, true), -1);
      of += 2;
      if (i > 0 && moved.get(i - 1).bus() == line.bus()) {
        Moved before = moved.get(i - 1);
        found += finds(sound, standing, levels -> exchanged(levels, before, line), line.bus());
        of++;
        neighbours = true;
      }
    }
    Set<List<Long>> words = new HashSet<>();
    sound.forEach(word -> words.add(Arrays.stream(word).boxed().toList()));
    return new Sight(found, of, words.size(), neighbours);
  }

  private static long[] stuck(long[] levels, Moved line, boolean high) {
    long[] faulty = levels.clone();
    faulty[line.bus()] = high ? faulty[line.bus()] | line.bit() : faulty[line.bus()] & ~line.bit();
    return faulty;
  }

  private static long[] exchanged(long[] levels, Moved one, Moved other) {
    boolean high = (levels[one.bus()] & one.bit()) != 0;
    boolean otherHigh = (levels[other.bus()] & other.bit()) != 0;
    return stuck(stuck(levels, one, otherHigh), other, high);
  }

  /**
   * 1 where some vector shows it.
   *
   * @param blind a bus that is not looked at, since a shared bus shows the fixture's own drive
   */
  private int finds(List<long[]> sound, long[] standing, UnaryOperator<long[]> fault, int blind) {
    List<long[]> faulty;
    try {
      faulty = shown(standing, fault);
    } catch (NeverRestsException never) {
      return 1;
    }
    for (int v = 0; v < sound.size(); v++) {
      for (int b = 0; b < card.buses().size(); b++) {
        long unknown = sound.get(v)[2 * b + 1] | faulty.get(v)[2 * b + 1];
        long differ = (sound.get(v)[2 * b] ^ faulty.get(v)[2 * b]) & ~unknown;
        if (b != blind && differ != 0) {
          return 1;
        }
      }
    }
    return 0;
  }

  /** Of each vector, value and unknown bits of every watched bus. */
  private List<long[]> shown(long[] standing, UnaryOperator<long[]> fault) {
    model.forget();
    List<long[]> shown = new ArrayList<>();
    for (long[] vector : vectors) {
      long[] levels = vector.clone();
      for (int b = 0; b < levels.length; b++) {
        levels[b] |= standing[b];
      }
      model.apply(fault.apply(levels));
      long[] word = new long[2 * levels.length];
      for (int b = 0; b < levels.length; b++) {
        if (card.buses().get(b).role() != Role.INPUT) {
          word[2 * b] = model.value(b) & ~model.unknown(b);
          word[2 * b + 1] = model.unknown(b);
        }
      }
      shown.add(word);
    }
    return shown;
  }
}
