package cardproof.card.wiring.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * One mistake each in a board that has none, found, named and placed; and nothing else that weighs
 * more.
 */
class PlantedFindingsTest {
  static Stream<Arguments> mistakes() {
    return Stream.of(
        planted(
            "com wired, neither no nor nc",
            Kind.FLOATING_CONTACT,
            "C[3] com3 is wired to +12V, but neither its no nor its nc is",
            board -> board.move("C[3]", "com3", "+12V")),
        planted(
            "no wired without com",
            Kind.FLOATING_CONTACT,
            "A[3] no2 is wired to g[3], but its com is not",
            board -> board.move("A[3]", "com2", "-")),
        planted(
            "a name written two ways",
            Kind.ONE_ENDED_NET,
            "net c[05] has one end only, B[4] no3",
            board -> board.move("B[4]", "no3", "c[05]")),
        planted(
            "coil without its ground wire",
            Kind.NO_RETURN,
            "A[2] coil2 is not wired",
            board -> board.move("A[2]", "coil2", "-")),
        planted(
            "coil to a net that leads nowhere",
            Kind.NO_RETURN,
            "current through A[2] has no way back: from A[2] coil2, net GMD, no contact or diode"
                + " leads to GND",
            board -> board.move("A[2]", "coil2", "GMD")),
        planted(
            "coil ends on one net",
            Kind.NO_RETURN,
            "both ends of the coil of A[2] are joined",
            board -> board.move("A[2]", "coil2", "A[2]")),
        planted(
            "coil that nothing feeds",
            Kind.NEVER_FED,
            "no way leads from the supply or a driven line to the coil of C[5]",
            board -> board.move("C[5]", "coil1", "lost").move("C[5].flyback", "cathode", "lost")),
        planted(
            "no diode",
            Kind.NO_FLYBACK,
            "the current of C[5] has nowhere to go when its feed opens",
            board -> board.without("C[5].flyback")),
        planted(
            "a diode the wrong way round",
            Kind.WRONG_WAY_DIODE,
            "A[4].flyback is the wrong way round across A[4]: a short as soon as the coil is fed by"
                + " A[4] - A[4] coil1 - A[4] coil2 - GND",
            board ->
                board.move("A[4].flyback", "anode", "A[4]").move("A[4].flyback", "cathode", "GND")),
        planted(
            "a contact between the rails",
            Kind.SHORT,
            "supply and ground are joined with no load between, with A[6] released: IN - F1 - A[6]"
                + " com4 - A[6] nc4 - GND",
            board -> board.move("A[6]", "com4", "+12V").move("A[6]", "nc4", "GND")),
        planted(
            "a drive on ground through a contact",
            Kind.SHORT,
            "driven line CI and ground are joined with no load between, with A[6] operated: CI -"
                + " A[6] com4 - A[6] no4 - GND",
            board -> board.move("A[6]", "com4", "CI").move("A[6]", "no4", "GND")),
        planted(
            "a line that is ground",
            Kind.SHORT,
            "line CI (J1.25) is ground: CI - W1 - GND",
            board -> board.wire("W1", "CI", "GND")),
        planted(
            "supply on ground",
            Kind.SHORT,
            "supply and ground are joined by wires and fuses alone: IN - F1 - W1 - GND",
            board -> board.wire("W1", "+12V", "GND")),
        planted(
            "a line with nothing on it",
            Kind.LINE_NOT_WIRED,
            "nothing is wired to line X (J1.39)",
            board -> board.input("X")),
        planted(
            "an output that nothing feeds",
            Kind.NEVER_LIT,
            "nothing can light output S[9]",
            board -> board.move("C[9]", "com1", "T[9]")),
        planted(
            "an input that feeds nothing",
            Kind.NO_LOAD,
            "line A[9] (J1.10) reaches no coil, lamp, resistor or watched line",
            board ->
                board
                    .move("A[9]", "coil1", "B[9]")
                    .move("A[9].flyback", "cathode", "B[9]")
                    .move("A[9]", "com4", "A[9]")
                    .move("A[9]", "no4", "open")),
        planted(
            "two inputs through a contact",
            Kind.TIED_LINES,
            "driven lines A[1] (J1.2) and A[2] (J1.3) are joined with no load between, with A[7]"
                + " operated: A[1] - A[7] com4 - A[7] no4 - A[2]",
            board -> board.move("A[7]", "com4", "A[1]").move("A[7]", "no4", "A[2]")),
        planted(
            "two inputs by a wire",
            Kind.TIED_LINES,
            "driven lines A[1] (J1.2) and A[2] (J1.3) are joined with no load between: A[1] - W1 -"
                + " A[2]",
            board -> board.wire("W1", "A[1]", "A[2]")));
  }

  private static Arguments planted(
      String what, Kind kind, String sentence, Consumer<Soldering> mistake) {
    return Arguments.of(what, kind, sentence, mistake);
  }

  @ParameterizedTest(name = "{0}")
  @MethodSource("mistakes")
  void isFoundAndNamed(String what, Kind kind, String sentence, Consumer<Soldering> mistake) {
    Soldering board = Boards.adder(12);
    assertThat(board.found(kind)).isEmpty();
    mistake.accept(board);
    List<String> found = board.found(kind);
    assertThat(found).singleElement().asString().startsWith("card.yaml:1:1: " + sentence);
    Review review = board.review();
    assertThat(review.hasErrors()).isEqualTo(kind.severity() == Severity.ERROR);
  }
}
