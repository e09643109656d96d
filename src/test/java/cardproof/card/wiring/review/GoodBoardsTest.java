package cardproof.card.wiring.review;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** What is soldered as it should be has no findings, and the chains are those found by hand. */
class GoodBoardsTest {
  /**
   * By hand: A[0] moves one stage after the drives, perhaps cancelled at S[0] by B[0]; C[1] moves
   * one stage later and alone at S[1], its A and B having moved. Each later carry shows at its own
   * sum lamp, so no silence is longer.
   */
  @Test
  void ofAnAdderTheFirstCarryIsTheFirstThatShows() {
    Review review = Boards.adder(12).review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.chains().unseen()).hasToString("A[0] - C[1]");
    assertThat(review.chains().longest().stages()).isEqualTo(12);
    assertThat(review.chains().longest())
        .asString()
        .startsWith("A[0] - C[1] - C[2]")
        .endsWith("C[11]");
    assertThat(review.chains().unseenByOutput().get("S[0]").stages()).isEqualTo(1);
    assertThat(review.chains().unseenByOutput().get("S[7]").stages()).isEqualTo(2);
  }

  @Test
  void partsAndCurrentsOfAnAdder() {
    Review review = Boards.adder(12).review();
    assertThat(review.tally()).isEqualTo(Tally.of(Boards.adder(12).wiring()));
    assertThat(review.tally().relaysByType()).containsOnlyKeys("PT-4-12V").containsValue(36);
    assertThat(review.tally().polesUsed()).isEqualTo(12 * 9);
    assertThat(review.tally().polesSpare()).isEqualTo(12 * 3);
    assertThat(review.tally().diodes()).isEqualTo(36);
    assertThat(review.tally().lamps()).isEqualTo(13);
    // 12 V at 192 ohm is 62.5 mA a coil (the data sheet says 750 mW)
    assertThat(review.currents().coils()).isEqualTo(36 * 62.5);
    assertThat(review.currents().lamps()).isEqualTo(13 * 40.0);
    assertThat(review.currents().atRest()).hasValue(0);
    assertThat(review.loads().get(0).milliamps()).isEqualTo(62.5);
    assertThat(review.loads().get(0).parts()).containsExactly("A[0]");
  }

  /**
   * The slower of 15 ms operate and 18 ms release with a diode, and 8 ms bounce: the data sheet.
   */
  @Test
  void timesAreThoseOfTheTypes() {
    StageTimes times = Boards.adder(12).review().times();
    assertThat(times).isEqualTo(new StageTimes(15_000, 18_000, 8_000));
  }

  /**
   * By hand: LD moves unseen, for what it puts at the coils may be what they hold; then R moves,
   * and shows at its own lamp. R holds itself, which is no chain.
   */
  @Test
  void ofARegisterTheLoadRelayIsUnseen() {
    Review review = Boards.register(12).review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.chains().unseen()).hasToString("LD0 - R[0]");
    assertThat(review.chains().longest()).hasToString("LD0 - R[0]");
  }

  /** By hand: all three relays hang on the drives alone, so each moves in the first stage. */
  @Test
  void ofADecoderEveryRelayMovesAtOnce() {
    Review review = Boards.decoder().review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.chains().unseen().stages()).isEqualTo(1);
    // with nothing driven output 0 is on: one lamp of 40 mA
    assertThat(review.currents().atRest()).hasValue(40);
  }

  /** By hand: a chain of relays of which only the last has a lamp is silent to its end. */
  @Test
  void aChainWithALampAtItsEndIsUnseenAllTheWay() {
    Soldering board = new Soldering().input("A").output("Q");
    String feed = "A";
    for (int i = 0; i < 5; i++) {
      board.relay("K" + i, feed, "GND", "+12V k" + i + " -");
      feed = "k" + i;
    }
    board.wire("W1", "k4", "Q").lamp("L", "Q", "GND");
    Review review = board.review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.chains().unseen()).hasToString("K0 - K1 - K2 - K3 - K4");
    assertThat(review.chains().unseenByOutput().get("Q")).hasToString("K0 - K1 - K2 - K3 - K4");
  }

  /** The same chain with a lamp on every relay, and one hidden relay behind the last. */
  @Test
  void anUnseenTailCounts() {
    Soldering board = new Soldering().input("A");
    String feed = "A";
    for (int i = 0; i < 5; i++) {
      board
          .output("Q[" + i + "]")
          .relay("K" + i, feed, "GND", "+12V k" + i + " -", "+12V Q[" + i + "] -")
          .lamp("L" + i, "Q[" + i + "]", "GND");
      feed = "k" + i;
    }
    assertThat(
            board
                .without("K4")
                .without("K4.flyback")
                .without("L4")
                .review()
                .chains()
                .unseen()
                .stages())
        .isEqualTo(1);
    board.relay("T0", "k3", "GND", "+12V t -").relay("T1", "t", "GND");
    assertThat(board.review().chains().unseen()).hasToString("T0 - T1");
    assertThat(board.review().chains().unseenByOutput().get("Q[3]").stages()).isEqualTo(1);
  }

  /**
   * By hand: address, word relay, write gate, cell. Cells of two words hang on one another over the
   * bus only while both words are picked, which the tree does not do at rest.
   */
  @Test
  void cellsOfAStoreDoNotFollowOneAnother() {
    Review review = Boards.store(2).review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.chains().longest()).hasToString("A1 - K[0] - W[0] - M[0][0]");
    assertThat(review.chains().unseen()).hasToString("A1 - K[0] - W[0] - M[0][0]");
  }

  /**
   * By hand: with a line of its own for each word, two may be picked, and then one writes another.
   */
  @Test
  void cellsThatMayBePickedTogetherDoFollowOneAnother() {
    Soldering board = new Soldering().line("D", true, true);
    for (int w = 0; w < 2; w++) {
      String n = "" + w;
      board
          .input("WR" + n)
          .input("RD" + n)
          .relay("W" + n, "WR" + n, "GND", "in" + n + " D hold" + n)
          .relay("G" + n, "RD" + n, "GND", "out" + n + " D -")
          .relay("M" + n, "in" + n, "GND", "+12V hold" + n + " -", "+12V out" + n + " -");
    }
    assertThat(board.review().chains().longest()).hasToString("W0 - M1 - M0");
  }

  /**
   * By hand: while LD is driven only R feeds the next M, while it is not only M feeds its R. So
   * either G, M, R or G, R, M, however many bits follow one another; nothing shows but the last.
   */
  @Test
  void ranksOfAShiftRegisterMoveOneAtATime() {
    Soldering board = new Soldering().input("LD").input("D").output("Q");
    for (int i = 0; i < 6; i++) {
      String data = i == 0 ? "D" : "q" + (i - 1);
      board
          .relay(
              "G" + i,
              "LD",
              "GND",
              "inM" + i + " " + data + " heldM" + i,
              "inR" + i + " heldR" + i + " m" + i)
          .relay("M" + i, "inM" + i, "GND", "+12V heldM" + i + " -", "+12V m" + i + " -")
          .relay("R" + i, "inR" + i, "GND", "+12V heldR" + i + " -", "+12V q" + i + " -");
    }
    Review review = board.wire("W", "q5", "Q").lamp("L", "Q", "GND").review();
    assertThat(review.findings()).isEmpty();
    assertThat(review.chains().longest()).hasToString("G0 - M0 - R0");
    assertThat(review.chains().unseen().stages()).isEqualTo(3);
  }

  /** Where the gates of both ranks stand the same way, the ring is closed: all are taken once. */
  @Test
  void aRingThatItsGatesCloseCountsWhole() {
    Soldering board = new Soldering().input("LD");
    for (int i = 0; i < 2; i++) {
      String n = "" + i;
      board
          .output("Q" + i)
          .relay("G" + i, "LD", "GND", "in" + n + " q" + (1 - i) + " held" + n)
          .relay(
              "R" + i,
              "in" + n,
              "GND",
              "+12V held" + n + " -",
              "+12V q" + n + " -",
              "+12V Q" + n + " -")
          .lamp("L" + i, "Q" + i, "GND");
    }
    assertThat(board.review().chains().longest()).hasToString("G0 - R1 - R0");
  }
}
