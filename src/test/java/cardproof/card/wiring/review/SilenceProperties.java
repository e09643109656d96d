package cardproof.card.wiring.review;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Wiring;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.statistics.Statistics;

/**
 * Cards wired at random, played through with relays of unlike speed of which many move at the same
 * instant: none is ever silent for longer than its unseen chain says, and some are for nearly as
 * long.
 */
class SilenceProperties {
  private static final int SLOWEST = 6;
  private static final int PATTERNS = 30;

  @Property(tries = 400)
  void noSilenceIsLongerThanTheUnseenChain(@ForAll long seed, @ForAll @IntRange(max = 8) int size) {
    Random random = new Random(seed);
    Soldering board = randomBoard(random, size + 2);
    Circuit circuit = new Circuit(board.wiring());
    Networks networks = new Networks(circuit, board.lines());
    Dependencies dependencies =
        new Dependencies(circuit, networks, AnyWay.of(circuit, Ends.of(circuit, board.lines())));
    boolean buzzes = IntStream.range(0, dependencies.relays()).anyMatch(dependencies::feedsItself);
    if (buzzes || !dependencies.haveNoCircles()) {
      return;
    }
    int stages = Chains.of(board.wiring(), board.lines()).unseen().stages();
    Play play = new Play(board.wiring(), board.lines(), random);
    int longest = 0;
    for (int i = 0; i < PATTERNS; i++) {
      BitSet pattern = BitSet.valueOf(new long[] {random.nextInt(8)});
      int silence = play.drive(pattern);
      assertThat(silence).as("pattern " + pattern).isLessThanOrEqualTo(stages * SLOWEST);
      longest = Math.max(longest, silence);
    }
    Statistics.label("stages that were silent")
        .collect((longest + SLOWEST - 1) / SLOWEST + " of " + stages);
  }

  /** The first carry's own sum lamp moves with it, though relays differ fourfold in speed. */
  @Property(tries = 50)
  void anAdderIsNeverSilentForMoreThanTwoStages(@ForAll long seed) {
    Random random = new Random(seed);
    Soldering board = Boards.adder(6);
    Play play = new Play(board.wiring(), board.lines(), random);
    for (int i = 0; i < PATTERNS; i++) {
      BitSet pattern = BitSet.valueOf(new long[] {random.nextInt(1 << 13)});
      assertThat(play.drive(pattern)).isLessThanOrEqualTo(2 * SLOWEST);
    }
  }

  /**
   * Address and data change together with WR, at the worst of times; what is kept does not matter.
   */
  @Property(tries = 50)
  void aStoreIsNeverSilentForMoreThanFourStages(@ForAll long seed) {
    Random random = new Random(seed);
    Soldering board = Boards.store(2);
    assertThat(Chains.of(board.wiring(), board.lines()).unseen().stages()).isEqualTo(4);
    Play play = new Play(board.wiring(), board.lines(), random);
    for (int i = 0; i < PATTERNS; i++) {
      BitSet pattern = BitSet.valueOf(new long[] {random.nextInt(1 << 6)});
      assertThat(play.drive(pattern)).isLessThanOrEqualTo(4 * SLOWEST);
    }
  }

  /** Three inputs; each relay hangs on contacts of earlier ones, or on an input; lamps on some. */
  private static Soldering randomBoard(Random random, int relays) {
    Soldering board = new Soldering().input("A").input("B").input("C");
    int lamps = 0;
    for (int r = 0; r < relays; r++) {
      String coil =
          r < 2 || random.nextInt(4) == 0 ? "ABC".charAt(random.nextInt(3)) + "" : "n" + r;
      String[] poles = new String[1 + random.nextInt(4)];
      for (int p = 0; p < poles.length; p++) {
        boolean xor = random.nextInt(3) == 0 && r > 0;
        String to = target(random, r, relays);
        String from = from(random, r);
        poles[p] =
            xor
                ? to + " " + from + " " + from(random, r)
                : from + " " + to + " " + (random.nextBoolean() ? "-" : target(random, r, relays));
      }
      board.relay("K" + r, coil, "GND", poles);
      if (random.nextBoolean()) {
        board.output("Q" + lamps).wire("W" + lamps, "Q" + lamps, "m" + random.nextInt(r + 1));
        lamps++;
      }
    }
    return board.output("Z").wire("WZ", "Z", "m0");
  }

  private static String from(Random random, int relay) {
    return random.nextInt(3) > 0 ? "+12V" : "m" + random.nextInt(relay + 1);
  }

  private static String target(Random random, int relay, int relays) {
    return random.nextBoolean() && relay + 1 < relays
        ? "n" + (relay + 1 + random.nextInt(relays - relay - 1))
        : "m" + random.nextInt(relay + 1);
  }

  /** Time in whole units, so that moves fall together. */
  private static final class Play {
    private static final int NEVER = Integer.MAX_VALUE;

    private final Wiring wiring;
    private final List<EdgeLine> lines;
    private final Random random;
    private final ContactLogic logic;
    private final int[] due;
    private BitSet operated = new BitSet();
    private BitSet driven = new BitSet();

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
      int longest = 0;
      feed(0);
      for (int now = next(); now != NEVER; now = next()) {
        BitSet before = levels();
        for (int r = 0; r < due.length; r++) {
          if (due[r] == now) {
            operated.flip(r);
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
}
