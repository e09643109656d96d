package cardproof.card.wiring.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
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
  private static final int SLOWEST = Play.SLOWEST;
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

  /** Two ranks gated in opposite phases, and logic from the second back to the first. */
  @Property(tries = 400)
  void loopsBehindGatesAreNoException(@ForAll long seed, @ForAll @IntRange(max = 3) int size) {
    Random random = new Random(seed);
    Soldering board = GatedLoops.random(random, size + 1);
    Circuit circuit = new Circuit(board.wiring());
    Networks networks = new Networks(circuit, board.lines());
    Dependencies dependencies =
        new Dependencies(circuit, networks, AnyWay.of(circuit, Ends.of(circuit, board.lines())));
    if (!dependencies.haveNoCircles()) {
      return;
    }
    Chains chains = Chains.of(board.wiring(), board.lines());
    int stages = chains.unseen().stages();
    Play play = new Play(board.wiring(), board.lines(), random);
    int longest = 0;
    for (int i = 0; i < PATTERNS; i++) {
      BitSet pattern = BitSet.valueOf(new long[] {random.nextInt(8)});
      int silence = play.drive(pattern);
      assertThat(silence).as("pattern " + pattern).isLessThanOrEqualTo(stages * SLOWEST);
      assertThat(play.lastMove())
          .as("pattern " + pattern)
          .isLessThanOrEqualTo(chains.longest().stages() * SLOWEST);
      longest = Math.max(longest, silence);
    }
    boolean loops = dependencies.blocks().stream().anyMatch(block -> block.phases().count() > 1);
    Statistics.label(loops ? "silent stages, loops" : "silent stages, no loops")
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
}
