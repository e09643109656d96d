package cardproof.card.wiring.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.BitSet;
import org.junit.jupiter.api.Test;

/** Findings that need a small board of their own, and boards that look suspicious and are sound. */
class OtherFindingsTest {
  /** Common practice: a plus-one chain that feeds itself, no register between, never rests. */
  @Test
  void aPlusOneChainThatFeedsItselfNeverRests() {
    assertThat(Boards.plusOneIntoItself(4).found(Kind.NEVER_RESTS))
        .singleElement()
        .asString()
        .contains("with GO driven the relays never come to rest: ")
        .contains(" - ");
  }

  @Test
  void aRelayThatOpensItsOwnFeedIsNamedAlone() {
    Soldering board = new Soldering().input("A").output("Q");
    board.relay("K1", "k", "GND", "A - k", "+12V Q -").lamp("L", "Q", "GND");
    assertThat(board.found(Kind.NEVER_RESTS))
        .containsExactly(
            "card.yaml:1:1: with A driven the relays never come to rest: K1 - K1. Put a register"
                + " into the loop, so that what comes out is held before it goes in again.");
  }

  @Test
  void aLoopOfTwoIsNamedRoundAndWithoutWhatOnlyFollows() {
    Soldering board = new Soldering().input("A").output("Q");
    board
        .relay("K1", "a", "GND", "+12V - a", "+12V q -")
        .without("K1")
        .without("K1.flyback")
        .relay("K2", "q", "GND", "A b -")
        .relay("K3", "b", "GND", "+12V - q", "+12V Q -")
        .relay("K4", "b", "GND", "+12V x -")
        .lamp("L", "Q", "GND")
        .lamp("L2", "x", "GND");
    assertThat(board.found(Kind.NEVER_RESTS))
        .singleElement()
        .asString()
        .contains("with A driven the relays never come to rest: K2 - K3 - K2.");
  }

  @Test
  void aRegisterThatHoldsItselfRests() {
    assertThat(Boards.register(12).found(Kind.NEVER_RESTS)).isEmpty();
    assertThat(Boards.register(12).found(Kind.RACE)).isEmpty();
  }

  /** Each keeps the other off: which wins is a matter of speed, but one does. */
  @Test
  void twoThatKeepEachOtherOffRaceAndRest() {
    Soldering board = new Soldering().input("A").output("Q");
    board
        .relay("K1", "a", "GND", "A - b", "+12V Q -")
        .relay("K2", "b", "GND", "A - a")
        .lamp("L", "Q", "GND");
    assertThat(board.found(Kind.NEVER_RESTS)).isEmpty();
    assertThat(board.found(Kind.RACE)).singleElement().asString().contains("K1 - K2 - K1");
  }

  @Test
  void aCoilThatOnlyItsOwnContactFeedsCanNeverOperate() {
    Soldering board = new Soldering().input("A").output("Q");
    board.relay("K1", "k", "GND", "A k -", "+12V Q -").lamp("L", "Q", "GND");
    assertThat(board.found(Kind.NEVER_FED))
        .singleElement()
        .asString()
        .contains("K1 can never operate: its coil is fed by its own contact alone");
  }

  @Test
  void aCoilThatAsksOneRelayForBothStatesHasNoReturn() {
    Soldering board = new Soldering().input("A").output("Q");
    board
        .relay("K1", "A", "GND", "+12V k -", "GND - m")
        .relay("K2", "k", "m", "+12V Q -")
        .lamp("L", "Q", "GND");
    assertThat(board.found(Kind.NO_RETURN))
        .singleElement()
        .asString()
        .contains("asks one relay to be operated and released at once");
    board.move("K1", "no2", "m").move("K1", "nc2", "-");
    assertThat(board.review().findings()).isEmpty();
  }

  /** A contact's no and nc are never closed at once, so a change-over between rails is no short. */
  @Test
  void aChangeOverBetweenTheRailsIsNoShort() {
    Soldering board = new Soldering().input("A").output("Q");
    board.relay("K1", "A", "GND", "Q +12V GND").lamp("L", "Q", "GND");
    assertThat(board.review().findings()).isEmpty();
  }

  /** Two relays' contacts may be closed at once for a moment, whatever drives them. */
  @Test
  void contactsOfTwoRelaysInSeriesBetweenTheRailsAreAShort() {
    Soldering board = new Soldering().input("A").input("B").output("Q");
    board
        .relay("K1", "A", "GND", "+12V m -")
        .relay("K2", "B", "GND", "m GND Q")
        .lamp("L", "Q", "GND");
    assertThat(board.found(Kind.SHORT))
        .singleElement()
        .asString()
        .contains("with K1, K2 operated: +12V - K1 com - K1 no - K2 com - K2 no - GND");
  }

  @Test
  void aDriveThatFeedsTooMuchIsNamedWithItsLoad() {
    Soldering board = Boards.register(12);
    assertThat(board.review(200).findings()).isEmpty();
    // three coils of 62.5 mA
    assertThat(board.review(120).findings())
        .singleElement()
        .satisfies(
            finding -> {
              assertThat(finding.kind()).isEqualTo(Kind.OVERLOADED_DRIVE);
              assertThat(finding.problem().found())
                  .isEqualTo(
                      "line LD (J1.13) feeds LD0, LD1, LD2 directly, 188 mA, and a drive gives 120"
                          + " mA");
            });
  }

  /** What a line feeds through contacts alone is no direct load, but is in the bound. */
  @Test
  void loadsBehindContactsAreABoundOnly() {
    LineLoad load = Boards.register(12).review().loads().get(0);
    assertThat(load.milliamps()).isZero();
    assertThat(load.mostMilliamps()).isEqualTo(62.5);
  }

  /** TE application note 13C3311 (memory) has resistors of 82 to 680 ohm in place of a diode. */
  @Test
  void aResistorAcrossTheCoilIsAFlybackToo() {
    Soldering board = new Soldering().input("A").output("Q");
    board.bare("K1", "A", "GND", "+12V Q -").lamp("L", "Q", "GND");
    assertThat(board.found(Kind.NO_FLYBACK)).hasSize(1);
    board.resistor("R1", "A", "GND", 680);
    assertThat(board.review().findings()).isEmpty();
    // and does not slow it as a diode does
    assertThat(board.review().times().releaseUs()).isEqualTo(10_000);
  }

  @Test
  void aCoilInTheLowSideIsClampedToTheSupply() {
    Soldering board = new Soldering().input("A").output("Q");
    board
        .relay("K1", "A", "GND", "low GND -", "+12V Q -")
        .bare("K2", "low", "+12V", "+12V y -")
        .lamp("L", "Q", "GND")
        .lamp("L2", "y", "GND");
    assertThat(board.found(Kind.NO_FLYBACK)).hasSize(1);
    board.diode("D1", "low", "+12V");
    assertThat(board.review().findings()).isEmpty();
  }

  /** A pull-up is a way for a watched line that no contact is. */
  @Test
  void anOutputBehindAPullUpCanBeLit() {
    Soldering board = new Soldering().input("A").output("Q");
    board.relay("K1", "A", "GND", "Q GND -").resistor("R1", "+12V", "Q", 1_000);
    assertThat(board.review().findings()).isEmpty();
  }

  /** A contact across a coil behind a resistor releases it, and is no short. */
  @Test
  void aShuntedCoilIsUnderstood() {
    Soldering board = new Soldering().input("A").output("Q");
    board
        .relay("K1", "A", "GND", "k GND -")
        .resistor("R1", "+12V", "k", 47)
        .relay("K2", "k", "GND", "+12V Q -")
        .lamp("L", "Q", "GND");
    assertThat(board.review().findings()).isEmpty();
    ContactLogic logic = new ContactLogic(board.wiring());
    BitSet lines = new BitSet();
    assertThat(logic.drive(lines)).isTrue();
    assertThat(logic.operated(1)).isTrue();
    lines.set(0);
    assertThat(logic.drive(lines)).isTrue();
    assertThat(logic.operated(1)).isFalse();
  }
}
