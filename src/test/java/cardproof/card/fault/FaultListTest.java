package cardproof.card.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.entry;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.card.TestWirings;
import cardproof.card.wiring.Spot;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class FaultListTest {
  private static List<String> names(Card card, FaultKind kind) {
    return FaultList.of(card).of(kind).map(Fault::name).toList();
  }

  @Test
  void ofASmallCardTheyAreTheseAndNoMore() {
    Card card = TestWirings.oneOfEach();
    assertThat(names(card, FaultKind.JOINT_MISSING)).hasSize(7 + 6 * 2 + 4);
    assertThat(names(card, FaultKind.EXCHANGED))
        .containsExactly(
            "K3.no1 exchanged with K3.nc1",
            "K3.no2 exchanged with K3.nc2",
            "K3.com1 exchanged with K3.nc1",
            "K3.no1 exchanged with K3.com2",
            "K3.com2 exchanged with K3.nc2",
            "Q[0] exchanged with Q[1]");
    assertThat(names(card, FaultKind.BRIDGED))
        .containsExactly(
            "K3.coil1 bridged to K3.coil2",
            "K3.com1 bridged to K3.nc1",
            "K3.nc1 bridged to K3.no1",
            "K3.no1 bridged to K3.com2",
            "K3.nc2 bridged to K3.no2",
            "Q[0] bridged to Q[1]");
    assertThat(names(card, FaultKind.WELDED))
        .containsExactly("K3.no1 welded", "K3.nc1 welded", "K3.no2 welded");
    assertThat(names(card, FaultKind.DIODE_SHORT)).containsExactly("K3.flyback short", "D4 short");
    assertThat(names(card, FaultKind.NET_STUCK))
        .containsExactly(
            "net +12V stuck at ground",
            "net +12V stuck at supply",
            "net z stuck at ground",
            "net z stuck at supply",
            "net v stuck at ground",
            "net v stuck at supply");
    assertThat(FaultList.of(card).notConsidered())
        .containsExactly(
            "where terminals lie on a relay: neighbours are taken by their numbers",
            "bridges beyond connectors and single relays: the card file has no positions");
  }

  /**
   * By hand, for n = 12 bits. Joints: K0 with 5 ends, per bit A 14, E 6, B 11, 3 flyback diodes and
   * a lamp 8, then K0.flyback, F1, W1, LC 8, lines 38. Contacts: K0 2, per bit A 8, E 2, B 6.
   * Diodes: 3n + 1, each in three kinds. Stuck lines: 2 (3n + 2).
   */
  @Test
  void ofATwelveBitAdderTheyAreCounted() {
    FaultList list = FaultList.of(TestWirings.adder(12));
    Map<FaultKind, Long> counts = list.counts();
    assertThat(counts)
        .contains(
            entry(FaultKind.JOINT_MISSING, 5L + 12 * (14 + 6 + 11 + 8) + 8 + 38),
            entry(FaultKind.NEVER_MAKES, 2L + 12 * 16),
            entry(FaultKind.WELDED, 2L + 12 * 16),
            entry(FaultKind.DIODE_OPEN, 37L),
            entry(FaultKind.DIODE_BACKWARDS, 37L),
            entry(FaultKind.COIL_OPEN, 37L),
            entry(FaultKind.LINE_STUCK, 76L),
            entry(FaultKind.LAMP_DEAD, 13L),
            entry(FaultKind.FUSE_OPEN, 1L),
            entry(FaultKind.WIRE_OPEN, 1L));
    assertThat(counts).doesNotContainKeys(FaultKind.SLOW, FaultKind.RESISTOR_OPEN);
    assertThat(list.all().count())
        .isEqualTo(counts.values().stream().mapToLong(Long::longValue).sum());
    System.Logger log = System.getLogger(FaultListTest.class.getName());
    log.log(System.Logger.Level.INFO, "12-bit adder: {0} faults, {1}", list.all().count(), counts);
  }

  @Test
  void withoutWiringThereAreLinesOnly() {
    Card bare = TestCards.card().input("A", 2).output("S", 1, "A[0]").build();
    assertThat(FaultList.of(bare).all().map(Fault::name))
        .containsExactly(
            "A[0] exchanged with A[1]",
            "A[0] stuck at ground",
            "A[0] stuck at supply",
            "A[1] stuck at ground",
            "A[1] stuck at supply",
            "S stuck at ground",
            "S stuck at supply");
  }

  /**
   * A made-up socket, 5 mm from pin to pin: nc1 over no1 over com1 in the left column, the coil
   * below. Rows and columns are neighbours, corners across are not; what is 10 mm away is not.
   */
  @Test
  void whereTerminalsHavePlacesTheNearestAreNeighbours() {
    Map<String, Spot> spots =
        Map.of(
            "nc1", new Spot(0, 10),
            "no1", new Spot(0, 5),
            "com1", new Spot(0, 0),
            "nc2", new Spot(5, 10),
            "no2", new Spot(5, 5),
            "com2", new Spot(5, 0),
            "coil1", new Spot(0, -10),
            "coil2", new Spot(5, -10));
    TestWirings wirings =
        new TestWirings()
            .terminals(spots)
            .relay("K1", Optional.of(new Spot(0, 0)), "X", "GND", "a b c", "d e f")
            .relay("K2", Optional.of(new Spot(11, 0)), "X", "GND", "g h i", "j k l");
    Card card = wirings.on(TestCards.card().input("X", 1).output("Y", 1, "X").build());
    assertThat(names(card, FaultKind.BRIDGED))
        .containsExactlyInAnyOrder(
            "K1.coil1 bridged to K1.coil2",
            "K1.com1 bridged to K1.no1",
            "K1.com1 bridged to K1.com2",
            "K1.no1 bridged to K1.nc1",
            "K1.no1 bridged to K1.no2",
            "K1.nc1 bridged to K1.nc2",
            "K1.com2 bridged to K1.no2",
            "K1.no2 bridged to K1.nc2",
            "K2.coil1 bridged to K2.coil2",
            "K2.com1 bridged to K2.no1",
            "K2.com1 bridged to K2.com2",
            "K2.no1 bridged to K2.nc1",
            "K2.no1 bridged to K2.no2",
            "K2.nc1 bridged to K2.nc2",
            "K2.com2 bridged to K2.no2",
            "K2.no2 bridged to K2.nc2",
            // between the relays, 6 mm apart
            "K1.coil2 bridged to K2.coil1",
            "K1.com2 bridged to K2.com1",
            "K1.no2 bridged to K2.no1",
            "K1.nc2 bridged to K2.nc1");
    assertThat(FaultList.of(card).notConsidered()).isEmpty();
  }

  @Test
  void theOrderIsFixedAndNothingComesTwice() {
    Card card = TestWirings.adder(3);
    List<String> once = FaultList.of(card).all().map(Fault::name).toList();
    assertThat(once).doesNotHaveDuplicates();
    assertThat(FaultList.of(card).all().map(Fault::name)).containsExactlyElementsOf(once);
  }
}
