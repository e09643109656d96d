package cardproof.card.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.card.TestWirings;
import cardproof.text.RefusedException;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class WiringFaultNamesTest {
  private static final Card CARD = TestWirings.oneOfEach();
  private static final Card ADDER = TestWirings.adder(12);

  @ParameterizedTest
  @ValueSource(
      strings = {
        "K3 coil open",
        "K3.no2 never makes",
        "K3.no2 welded",
        "K3.com2 joint missing",
        "Q[1] joint missing",
        "J9.1 joint missing",
        "J9.2 bridged to Q[1]",
        "D4 open",
        "D4 short",
        "D4 backwards",
        "K3.flyback open",
        "X bridged to Y",
        "K3.no1 bridged to net v",
        "K3.no1 exchanged with K3.nc1",
        "Q[0] exchanged with Q[1]",
        "net z stuck at ground",
        "L1 dead",
        "F1 open",
        "R1 open",
        "W1 open",
        "K3 slow by 20 ms",
        "K3 slow by 50 %",
        "K3.no2 never makes, in 10 % of spells of 5 ms",
        "X stuck at supply, in 0.5 % of spells of 1.5 s"
      })
  void whatIsReadIsWrittenTheSame(String name) {
    assertThat(FaultNames.parse(name, CARD).name()).isEqualTo(name);
  }

  /** Markings as EN 50005 and IEC 60947-1 have them: from memory, as common practice. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          K3.A1 joint missing        | K3.coil1 joint missing
          K3.a2 joint missing        | K3.coil2 joint missing
          K3.11 joint missing        | K3.com1 joint missing
          K3.14 never makes          | K3.no1 never makes
          K3.12 welded               | K3.nc1 welded
          K3.21 bridged to K3.12     | K3.com2 bridged to K3.nc1
          K3.NO2  Never   Makes      | K3.no2 never makes
          D4.K joint missing         | D4.cathode joint missing
          J3.2 joint missing         | Q[1] joint missing
          j1.1 joint missing         | X joint missing
          z stuck at ground          | net z stuck at ground
          NET z stuck at Ground      | net z stuck at ground
          net X stuck at ground      | X stuck at ground
          GND bridged to Q [0]       | net GND bridged to Q[0]
          K3 slow by 20ms            | K3 slow by 20 ms
          K3 slow by 0.5 s           | K3 slow by 500 ms
          K3 slow by 50%             | K3 slow by 50 %
          L1 dead,in 10% of spells of 5ms | L1 dead, in 10 % of spells of 5 ms
          """)
  void otherWaysOfWritingIt(String written, String name) {
    assertThat(FaultNames.parse(written, CARD).name()).isEqualTo(name);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "BIT[3].A coil open",
        "BIT[11].B.no3 welded",
        "BIT[0].A.flyback backwards",
        "net BIT[3].one stuck at ground",
        "A[3] bridged to net N[4]"
      })
  void partsAndNetsInBlocksGoByTheirFullNames(String name) {
    assertThat(FaultNames.parse(name, ADDER).name()).isEqualTo(name);
  }

  @Test
  void whereOnePoleIsWiredItsNumberMayBeLeftOut() {
    assertThat(FaultNames.parse("K0.no welded", ADDER).name()).isEqualTo("K0.no1 welded");
    assertThatThrownBy(() -> FaultNames.parse("K3.no welded", CARD))
        .hasMessageContaining("relay K3 has 2 poles and no terminal 'no'");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          K4 coil open               | card test has no 'K4'; wanted a relay. Did you mean 'K3'?
          D3 short                   | wanted a diode. Did you mean 'D4'?
          L9 dead                    | wanted a lamp. Did you mean 'L1'?
          K4.no1 welded              | wanted a contact such as K3.no2. Did you mean 'K3.no1'?
          k3.no1 welded              | Did you mean 'K3.no1'?
          zz stuck at ground         | wanted a line or a net. Did you mean 'z'?
          Q0 stuck at ground         | Did you mean 'Q[0]'?
          J3.9 joint missing         | no line leaves at J3.9; wanted a pin of J3 with a line, 1 to 2
          K3.no5 never makes         | relay K3 has 2 poles and no terminal 'no5'; wanted coil1, coil2, com1, no1, nc1, com2, no2, nc2
          K3.34 never makes          | no terminal '34'
          L1.3 joint missing         | lamp L1 has no terminal '3'; wanted 1, 2
          D4.anodd joint missing     | Did you mean 'D4.anode'?
          F1 backwards               | 'backwards' cannot be said of fuse F1; wanted 'F1 open' or 'F1.1 joint missing'
          L1 welded                  | 'welded' cannot be said of lamp L1; wanted 'L1 dead'
          L1 open                    | wanted 'L1 dead'
          K3 welded                  | wanted 'K3 coil open', 'K3 slow by 20 ms', 'K3.no1 never makes', 'K3.no1 welded' or 'K3.coil1 joint missing'
          K3 open                    | 'open' cannot be said of relay K3
          K3.com1 welded             | 'welded' cannot be said of terminal K3.com1; wanted 'K3.com1 joint missing'
          K3.coil1 never makes       | cannot be said of terminal K3.coil1
          L1.1 welded                | cannot be said of terminal L1.1
          D4 coil open               | cannot be said of diode D4
          R1 slow by 5 ms            | cannot be said of resistor R1
          W1 short                   | cannot be said of wire W1
          z joint missing            | cannot be said of net z; wanted 'net z stuck at ground (or supply)'
          K3.no1 stuck at ground     | cannot be said of terminal K3.no1
          K3 bridged to Y            | cannot be said of relay K3
          Y bridged to K3            | cannot be said of relay K3
          z bridged to net z         | net z is named twice; wanted two different places
          X bridged to K3.coil1      | X and K3.coil1 are both on net X; wanted places on two different nets
          K3.com1 exchanged with K3.com1 | K3.com1 is named twice
          K3.com1 exchanged with K3.com2 | are both on net +12V
          K3.no1 exchanged with X    | one of K3.no1 and X is a line, the other a terminal
          J9.1 stuck at ground       | 'stuck at' cannot be said of pin J9.1; wanted 'J9.1 joint missing' or 'J9.1 bridged to ...'
          J9.2 bridged to GND        | J9.2 and net GND are both on net GND
          J9.1 exchanged with J9.2   | cannot be said of pin J9.1
          z exchanged with Y         | cannot be said of net z
          X exchanged with Y         | do not go the same way
          K3.nc2 joint missing       | nothing is soldered to K3.nc2 anyway; wanted a terminal with a wire: K3.coil1
          GND stuck at supply        | net GND is the supply or the ground itself
          IN stuck at ground         | net IN is the supply or the ground itself
          z stuck at gruond          | Did you mean 'ground'?
          K3 slow by 5               | '5' does not say how slow; wanted a time such as 20 ms
          K3 slow by 0 ms            | does not say how slow
          K3 slow by 11 s            | does not say how slow
          K3 slow by 20 ms, in 10 % of spells of 5 ms | a slow relay is slow all the time; wanted 'K3 slow by 20 ms'
          L1 dead, now and then      | 'now and then' does not say how often it is there; wanted a chance from 0.1 % to 99.9 %
          L1 dead, in 100 % of spells of 5 ms | does not say how often
          L1 dead, in 10 % of spells of 5 us  | does not say how often
          L1 dead, in 0 % of spells of 5 ms   | does not say how often
          K3 coil opne               | Did you mean 'coil open'?
          K3.no1 nevr makes          | wanted 'K3.no1 never makes', 'K3.no1 welded', 'K3.no1 joint missing', 'K3.no1 exchanged with ...' or 'K3.no1 bridged to ...'. Did you mean 'never makes'?
          K3                         | this is no fault name; wanted 'K3 coil open'
          what                       | this is no fault name; wanted 'S[3] stuck at ground'
          """)
  void whatIsWrongIsSaid(String name, String said) {
    assertThatThrownBy(() -> FaultNames.parse(name, CARD))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining(said);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "K3 coil open",
        "A[1] bridged to A[2]",
        "A[1] stuck at ground, in 1 % of spells of 1 s"
      })
  void withoutWiringOnlyLinesCanBeFaulty(String name) {
    Card bare = TestCards.card().input("A", 4).output("S", 4, "A").build();
    assertThatThrownBy(() -> FaultNames.parse(name, bare))
        .hasMessage(
            "fault '"
                + name
                + "': card test does not say what is soldered on it; wanted 'wiring' in test."
                + " Without it can be asked: 'S[3] stuck at ground', 'A[2] exchanged with A[3]' or"
                + " 'S[3] stuck at supply'.");
  }

  @Test
  void allProblemsOfSeveralComeAtOnce() {
    assertThatThrownBy(
            () -> FaultNames.parseAll(List.of("K9 coil open", "L1 dead", "L9 dead"), CARD))
        .hasMessageContainingAll("'K9'", "'L9'");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          L1 dead             | L1 dead             | given twice
          X bridged to Y      | Y bridged to X      | given twice as 'X bridged to Y'
          L1 dead             | L1 dead, in 10 % of spells of 5 ms | given twice
          D4 open             | D4 short            | it cannot be while 'D4 open' is
          K3.no1 welded       | K3.nc1 welded       | cannot be while
          K3.no1 welded       | K3.no1 never makes  | cannot be while
          Y stuck at ground   | Y stuck at supply   | cannot be while
          """)
  void someCannotBeTogether(String first, String second, String said) {
    assertThatThrownBy(() -> FaultNames.parseAll(List.of(first, second), CARD))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining(said);
  }

  @Test
  void manyCanBeTogether() {
    List<String> names =
        List.of("K3.no1 welded", "K3.nc1 never makes", "K3.no2 welded", "D4 open", "D4 backwards");
    assertThat(FaultNames.parseAll(names, CARD)).extracting(Fault::name).isEqualTo(names);
  }
}
