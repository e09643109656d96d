package cardproof.card.wiring.review;

import cardproof.card.wiring.Wiring;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Random;

/**
 * A card played through with relays of unlike speed, none slower than {@link #SLOWEST}. Time is in
 * whole units, so that moves fall together.
 */
final class Play {
  static final int SLOWEST = 6;

  private static final int NEVER = Integer.MAX_VALUE;

  private final Wiring wiring;
  private final List<EdgeLine> lines;
  private final Random random;
  private final ContactLogic logic;
  private final int[] due;
  private BitSet operated = new BitSet();
  private BitSet driven = new BitSet();
  private int lastMove;

  Play(Wiring wiring, List<EdgeLine> lines, Random random) {
    this.wiring = wiring;
    this.lines = lines;
    this.random = random;
    this.logic = new ContactLogic(wiring);
    this.due = new int[wiring.relays().size()];
    Arrays.fill(due, NEVER);
    drive(driven);
  }

  /** The longest silence from the drives to the last move of any relay. */
  int drive(BitSet pattern) {
    driven = pattern;
    int heard = 0;
    lastMove = 0;
    int longest = 0;
    feed(0);
    for (int now = next(); now != NEVER; now = next()) {
      BitSet before = levels();
      for (int r = 0; r < due.length; r++) {
        if (due[r] == now) {
          operated.flip(r);
          lastMove = now;
          due[r] = NEVER;
        }
      }
      feed(now);
      longest = Math.max(longest, now - heard);
      if (!levels().equals(before)) {
        heard = now;
      }
    }
    return longest;
  }

  /** When the last relay moved after the last drives. */
  int lastMove() {
    return lastMove;
  }

  private int next() {
    return Arrays.stream(due).min().orElse(NEVER);
  }

  private void feed(int now) {
    logic.put(driven, operated);
    for (int r = 0; r < due.length; r++) {
      boolean moves = logic.fed(r) != operated.get(r);
      if (!moves) {
        due[r] = NEVER;
      } else if (due[r] == NEVER) {
        due[r] = now + 1 + random.nextInt(SLOWEST);
      }
    }
  }

  private BitSet levels() {
    BitSet on = new BitSet();
    for (int line = 0; line < lines.size(); line++) {
      on.set(line, lines.get(line).watched() && logic.on(wiring.lineNets().get(line)));
    }
    return on;
  }
}
