package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Role;
import cardproof.link.Beat;
import cardproof.link.DropCause;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Status;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What a simulated card comes to, sound and with faults. */
class BehaviourCircuitTest {
  private static final long LONG_US = 400_000;

  // Common practice: a plus-one chain gives 1 for 0, carries across the middle, and wraps to 0.
  @ParameterizedTest
  @CsvSource({"0x0000, 0x0001", "0x00FF, 0x0100", "0xFFFF, 0x0000"})
  void aPlusOneChain(String in, String out) {
    CardProbe probe = new CardProbe(Cards.plusOne(16), 1);
    assertThat(probe.read("Y")).as("shows 1 when power has just come on").isEqualTo(1);

    probe.drive(Map.of("I", Long.decode(in)), LONG_US);

    assertThat(probe.read("Y")).isEqualTo(Long.decode(out));
  }

  // Common practice: a relay register powers up clear and keeps its value while it is not loaded.
  @Test
  void aRegisterPowersUpClearAndKeeps() {
    CardProbe probe = new CardProbe(Cards.hold(), 1);
    probe.drive(Map.of("SEL", 1L), LONG_US);
    assertThat(probe.read("Q")).isZero();

    probe.drive(Map.of("D", 0xA5CL, "SEL", 0L), LONG_US);
    probe.drive(Map.of("LD", 1L), LONG_US).drive(Map.of("LD", 0L), LONG_US);
    assertThat(probe.read("Q")).as("not selected").isZero();
    probe.drive(Map.of("D", 0x123L), LONG_US).drive(Map.of("SEL", 1L), LONG_US);

    assertThat(probe.read("Q")).isEqualTo(0xA5C);
  }

  @Test
  void whatCannotBeKnownFallsEitherWayAndKeepsItsLevel() {
    Card card =
        Cards.named("store")
            .bus("LD", 1, Role.INPUT)
            .output("Q", 32, "R")
            .state("R", 32, "0xxxxxxxxx", "LD ? 0 : R")
            .card();
    CardProbe probe = new CardProbe(card, 3);
    long found = probe.read("Q");

    assertThat(found).isNotIn(0L, 0xFFFF_FFFFL);
    assertThat(new CardProbe(card, 4).read("Q")).as("another unit").isNotEqualTo(found);
    assertThat(probe.rest(LONG_US).read("Q")).isEqualTo(found);
    assertThat(probe.drive(Map.of("LD", 1L), LONG_US).read("Q")).isZero();
  }

  @Test
  void cardAndFixtureOnOneSharedLineReadAsTheOr() {
    CardProbe probe = new CardProbe(Cards.onBus(), 1);

    probe.drive(Map.of("D", 0b0011L, "SEL", 1L, "BUS", 0b0101L), LONG_US);
    assertThat(probe.read("BUS")).isEqualTo(0b0111);
    assertThat(probe.read("SEEN")).isEqualTo(0b0111);
    probe.drive(Map.of("SEL", 0L), LONG_US);
    assertThat(probe.read("BUS")).isEqualTo(0b0101);
    probe.drive(Map.of("BUS", 0L), LONG_US);
    assertThat(probe.read("BUS")).isZero();
  }

  @Test
  void aLineThatTheFixtureDrivesItselfChangesAtOnce() {
    CardProbe probe = new CardProbe(Cards.onBus(), 1);
    probe.drive(Map.of("BUS", 0b0100L), 0);

    assertThat(probe.read("BUS")).isEqualTo(0b0100);
    assertThat(probe.changes().keySet()).containsExactly("BUS[2]");
  }

  @ParameterizedTest
  @CsvSource({
    "A[3] stuck at ground,    0xFF, 0x0F, 0x106",
    "A[3] stuck at supply,    0x00, 0x01, 0x009",
    "S[3] stuck at ground,    0x08, 0x00, 0x000",
    "S[3] stuck at supply,    0x01, 0x00, 0x009",
    "A[0] exchanged with A[7],0x01, 0x00, 0x080",
    "S[0] exchanged with S[7],0x01, 0x00, 0x080",
    "A[0] exchanged with B[1],0x01, 0x00, 0x002"
  })
  void faults(String fault, String a, String b, String wanted) {
    CardProbe probe = new CardProbe(Cards.sum(8), 1, fault);

    probe.drive(Map.of("A", Long.decode(a), "B", Long.decode(b)), LONG_US);

    assertThat(probe.read("S") | probe.read("CO") << 8).isEqualTo(Long.decode(wanted));
  }

  @ParameterizedTest
  @CsvSource({
    "BUS[0] stuck at supply, 0b0000, 0, 0b0000, 0b0001, 0b0001",
    "BUS[0] stuck at ground, 0b0011, 0, 0b0000, 0b0010, 0b0010",
    "BUS[0] stuck at ground, 0b0000, 1, 0b0011, 0b0010, 0b0011",
    "BUS[0] exchanged with BUS[3], 0b0001, 0, 0b0000, 0b0001, 0b1000",
    "BUS[0] exchanged with BUS[3], 0b0000, 1, 0b0001, 0b1000, 0b0001"
  })
  void faultsOfSharedLines(
      String fault, String bus, long select, String d, String onBus, String seenByCard) {
    CardProbe probe = new CardProbe(Cards.onBus(), 1, fault);

    probe.drive(Map.of("BUS", bits(bus), "SEL", select, "D", bits(d)), LONG_US);

    assertThat(probe.read("BUS")).isEqualTo(bits(onBus));
    // in the third case the card sees what it drives itself, whatever the wire is joined to
    assertThat(probe.read("SEEN")).isEqualTo(bits(seenByCard));
  }

  private static long bits(String binary) {
    return Long.parseLong(binary.substring(2), 2);
  }

  @Test
  void twoFaultsAtOnce() {
    CardProbe probe =
        new CardProbe(
            Cards.sum(8),
            1,
            "A[0] exchanged with A[1]",
            "A[1] exchanged with A[2]",
            "B[0] stuck at supply");

    probe.drive(Map.of("A", 0b001L), LONG_US);

    // fixture's A0 goes to the card's A1, A1 to A2, A2 to A0
    assertThat(probe.read("S")).isEqualTo(0b010 + 1);
  }

  @Test
  void aDriveThatIsTakenBackInTimeMovesNothing() {
    CardProbe probe = new CardProbe(Cards.sum(8), 1);
    probe.drive(Map.of("A", 0xFFL), 10_000).drive(Map.of("A", 0L), LONG_US);

    assertThat(probe.changes()).isEmpty();
    assertThat(probe.read("S")).isZero();
  }

  @ParameterizedTest
  @ValueSource(longs = {5_000, 20_000, 27_000, 35_000})
  void comesToRestRightWhereverItIsDisturbed(long afterUs) {
    CardProbe probe = new CardProbe(Cards.sum(8), 7);
    long[] words = {0xFF, 0x0F, 0xF0, 0x55, 0xAA, 0x00, 0x81};
    for (long word : words) {
      probe.drive(Map.of("A", word), afterUs);
    }
    probe.rest(LONG_US);

    assertThat(probe.read("S")).isEqualTo(0x81);
  }

  // Common practice: a plus-one chain that feeds itself never comes to rest.
  @Test
  void aChainThatFeedsItselfMovesAboutAsFastAsRelaysDo() {
    CardProbe probe = new CardProbe(Cards.fedBack(), 1);
    probe.drive(Map.of("RUN", 1L), 2_000_000);

    // the slower of operate and release is 18 ms; 5 ms of silence is longer than any bounce but the
    // last
    long moves = 1;
    List<CardProbe.Change> lowest = probe.changes().get("Y[0]");
    for (int i = 1; i < lowest.size(); i++) {
      moves += lowest.get(i).afterNs() - lowest.get(i - 1).afterNs() > 5_000_000 ? 1 : 0;
    }
    assertThat(moves).isBetween(2000L / 18 - 8, 2 * 2000L / 18);
    assertThat(probe.changes()).containsKeys("Y[0]", "Y[1]", "Y[2]", "Y[3]");

    probe.drive(Map.of("RUN", 0L), LONG_US);
    assertThat(probe.read("Y")).isZero();
    assertThat(probe.circuit.nextChangeNs()).isEqualTo(EventQueue.NEVER);
  }

  @Test
  void theFixtureTripsOnAChainThatFeedsItself() {
    Card card = Cards.fedBack();
    RawHost host =
        RawHost.armed(
            new SimulatedBench(
                card, Cards.driven(card), Cards.watched(card), SimSettings.of(1, "01")));
    host.send(Steps.number(0).drive(1, 1).step());

    Result result = host.expect(Result.class, 400_000);
    Status status = host.expect(Status.class, 0);

    assertThat(result.has(ResultFlag.TRIPPED)).isTrue();
    assertThat(status.cause()).isEqualTo(DropCause.CHATTER);
    assertThat(status.chattering()).isZero();
    assertThat(status.on().isEmpty()).isTrue();
    host.rest(400_000);
    assertThat(host.ask(new Beat(0), Status.class).levels().isEmpty())
        .as("released, it comes to rest")
        .isTrue();
  }
}
