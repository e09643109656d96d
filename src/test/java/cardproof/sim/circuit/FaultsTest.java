package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Sharing;
import cardproof.card.TestCards;
import cardproof.card.TestWirings;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultNames;
import cardproof.card.wiring.Wiring;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What each fault makes of a small card, drawn by hand first. K3 is {@code coil1 coil2 com1 no1 nc1
 * com2 no2 nc2}; lines are X (0), Y (1), Q[0] (2), Q[1] (3).
 */
class FaultsTest {
  private static final Card CARD = TestWirings.oneOfEach();

  private static List<String> put(Card card, String... names) {
    Wiring sound = card.wiring().orElseThrow();
    List<Fault> faults = Arrays.stream(names).map(name -> FaultNames.parse(name, card)).toList();
    return Drawing.changes(sound, Faults.put(sound, card, faults, 1));
  }

  @Test
  void theSoundCardIsDrawnLikeThis() {
    Wiring wiring = CARD.wiring().orElseThrow();
    assertThat(wiring.parts().stream().map(part -> Drawing.part(wiring, part).replace("'", "")))
        .containsExactly(
            "F1: IN +12V",
            "K3: X GND +12V Y z +12V v -",
            "K3.flyback: GND X",
            "L1: z GND",
            "D4: v Q[0]",
            "R1: Y GND",
            "W1: v Q[1]");
    assertThat(put(CARD)).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          K3 coil open              | K3: - GND +12V Y z +12V v -
          K3.no2 never makes        | K3: X GND +12V Y z +12V - -
          K3.nc1 never makes        | K3: X GND +12V Y - +12V v -
          K3.no1 welded             | K3: X GND +12V Y - +12V v -; + K3.no1 welded: +12V Y
          K3.nc1 welded             | K3: X GND +12V - z +12V v -; + K3.nc1 welded: +12V z
          K3.nc2 welded             | K3: X GND +12V Y z +12V - -
          K3.com2 joint missing     | K3: X GND +12V Y z - v -
          K3.coil2 joint missing    | K3: X - +12V Y z +12V v -
          X joint missing           | line 0: X joint missing
          J3.2 joint missing        | line 3: Q[1] joint missing
          D4 open                   | D4: - Q[0]
          D4 short                  | + D4 short: v Q[0]
          D4 backwards              | D4: Q[0] v
          K3.flyback open           | K3.flyback: - X
          X bridged to Y            | + X bridged to Y: X Y
          z bridged to v            | + net z bridged to net v: z v
          K3.no1 bridged to K3.nc1  | + K3.no1 bridged to K3.nc1: Y z
          Q[0] bridged to GND       | + Q[0] bridged to net GND: Q[0] GND
          K3.no1 exchanged with K3.nc1 | K3: X GND +12V z Y +12V v -
          K3.no2 exchanged with K3.nc2 | K3: X GND +12V Y z +12V - v
          K3.nc1 exchanged with D4.anode | K3: X GND +12V Y v +12V v -; D4: z Q[0]
          Q[0] exchanged with Q[1]  | line 2: Q[1]; line 3: Q[0]
          L1 dead                   | L1: - GND
          F1 open                   | F1: - +12V
          R1 open                   | R1: - GND
          W1 open                   | W1: - Q[1]
          K3 slow by 20 ms          | K3 slower 20000
          K3 slow by 50 %           | K3 slower 7500
          """)
  void isDrawnAsAPersonWould(String fault, String drawn) {
    assertThat(put(CARD, fault)).containsExactly(drawn.split("; "));
  }

  /** Nothing was soldered to nc2; the solder that runs to it makes it one with its neighbour. */
  @Test
  void solderRunsToATerminalWithoutAWireToo() {
    assertThat(put(CARD, "K3.no2 bridged to K3.nc2"))
        .containsExactly(
            "K3: X GND +12V Y z +12V v K3.nc2", "+ K3.no2 bridged to K3.nc2: v K3.nc2");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          Y stuck at ground   | line 1: GND
          Y stuck at supply   | line 1: IN
          X stuck at ground   | K3.flyback: GND -; + X stuck at ground: X GND; line 0: X stuck at ground
          X stuck at supply   | + X stuck at supply: X IN; line 0: X stuck at supply
          v stuck at ground   | K3: X GND +12V Y z +12V - -; D4: - Q[0]; W1: - Q[1]; + net v stuck at ground: v GND
          v stuck at supply   | + net v stuck at supply: v IN
          z stuck at ground   | K3: X GND +12V Y - +12V v -; + net z stuck at ground: z GND
          """)
  void whatIsStuckIsPartedFromWhatWouldDriveIt(String fault, String drawn) {
    assertThat(put(CARD, fault)).containsExactlyInAnyOrder(drawn.split("; "));
  }

  /** Each side of a shared line at ground sees what it drives itself, as behaviour alone has it. */
  @Test
  void aSharedLineAtGroundIsParted() {
    Card shared =
        new TestWirings()
            .relay("K1", "S", "GND", "IN T -")
            .on(TestCards.card().shared("S", 1, Sharing.WIRED_OR, "0").output("T", 1, "S").build());
    assertThat(put(shared, "S stuck at ground")).containsExactly("line 0: S stuck at ground");
    assertThat(put(shared, "S stuck at supply"))
        .containsExactlyInAnyOrder("+ S stuck at supply: S IN", "line 0: IN");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          K3.no2 never makes | K3: X GND +12V Y z +12V a -; a/v
          K3 coil open       | K3: a GND +12V Y z +12V v -; a/X
          D4 open            | D4: a Q[0]; a/v
          D4 short           | v=Q[0]
          X bridged to Y     | X=Y
          X joint missing    | line 0: a; a/X
          L1 dead            | L1: a GND; a/z
          K3.no1 welded      | K3: X GND +12V Y a +12V v -; +12V=Y; a/z
          Y stuck at ground  | line 1: a; a/Y; a=GND
          D4 backwards       | D4: a b; a/v; a=Q[0]; b/Q[0]; b=v
          """)
  void whatComesAndGoesHasSwitches(String fault, String drawn) {
    Wiring sound = CARD.wiring().orElseThrow();
    Fault some = FaultNames.parse(fault + ", in 10 % of spells of 5 ms", CARD);
    FaultyWiring faulty = Faults.put(sound, CARD, List.of(some), 1);
    List<String> changes =
        Drawing.changes(sound, faulty).stream()
            .map(change -> change.replace(fault + " (2)", "b").replace(fault, "a"))
            .toList();
    assertThat(changes).containsExactlyInAnyOrder(drawn.split("; "));
    assertThat(faulty.switches().stream().map(SpellSwitch::spell).distinct()).hasSize(1);
    Spell spell = faulty.switches().get(0).spell();
    assertThat(spell.probability()).isEqualTo(0.1);
    assertThat(spell.dwellNs()).isEqualTo(5_000_000);
  }

  @Test
  void spellsHangOnSeedAndFaultAlone() {
    String one = "X joint missing, in 10 % of spells of 5 ms";
    String other = "L1 dead, in 10 % of spells of 5 ms";
    assertThat(key(1, one)).isEqualTo(key(1, one, other)).isNotEqualTo(key(2, one));
    assertThat(key(1, other)).isNotEqualTo(key(1, one));
  }

  private static long key(long seed, String... names) {
    List<Fault> faults = FaultNames.parseAll(List.of(names), CARD);
    return Faults.put(CARD.wiring().orElseThrow(), CARD, faults, seed)
        .switches()
        .get(0)
        .spell()
        .key();
  }

  /** The wire of no1 is on nc1, where there is no joint; the bridge runs to the bare terminal. */
  @Test
  void faultsThatMeetAreTakenFromTheOutsideIn() {
    String[] faults = {
      "K3.nc1 bridged to K3.com2", "K3.nc1 joint missing", "K3.no1 exchanged with K3.nc1"
    };
    assertThat(put(CARD, faults))
        .containsExactly(
            "K3: X GND +12V z K3.nc1 +12V v -", "+ K3.nc1 bridged to K3.com2: K3.nc1 +12V");
  }

  /** A[0] and A[1] changed places in the plug; the joint at A[0]'s pin holds A[1]'s wire. */
  @Test
  void aJointMissingAtAPinPartsTheWireThatIsThere() {
    assertThat(put(CARD, "Q[0] joint missing", "Q[0] exchanged with Q[1]"))
        .containsExactly("line 2: Q[1]", "line 3: Q[0] joint missing");
  }

  @Test
  void aBridgeToAStuckNetIsABridgeToTheRail() {
    assertThat(put(CARD, "net z stuck at supply", "net z bridged to Y"))
        .containsExactly("+ net z stuck at supply: z IN", "+ net z bridged to Y: z Y");
  }

  @Test
  void slownessAddsUp() {
    assertThat(put(CARD, "K3 slow by 20 ms", "K3 slow by 50 %")).containsExactly("K3 slower 27500");
  }
}
