package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.Role;
import cardproof.card.wiring.Wiring;
import cardproof.link.Arm;
import cardproof.link.Beat;
import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.Message;
import cardproof.link.Open;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Status;
import cardproof.sim.circuit.Adders;
import cardproof.sim.circuit.CircuitWarnings;
import cardproof.sim.circuit.Solder;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Cards simulated from their wiring, seen through the fixture's frames. */
class WiredBenchTest {
  private static final int WIDTH = 12;

  /** Bounce of 8 ms and its margin are one move. */
  private static final int MOVE_REST_US = 10_000;

  private static RawHost host(Card card) {
    RawHost host =
        new RawHost(
            new SimulatedBench(
                card, Cards.driven(card), Cards.watched(card), SimSettings.of(12, "01")));
    host.hello();
    Open usual = host.usual();
    host.open(
        RawHost.SESSION,
        new Open(
            usual.boot(),
            usual.follows(),
            usual.silenceMs(),
            usual.chatterMoves(),
            usual.chatterChanges(),
            MOVE_REST_US,
            usual.holdMs(),
            usual.drives(),
            usual.watches()));
    host.ask(new Arm(), Status.class);
    return host;
  }

  @Test
  void addsWhateverIsDriven() {
    Card card = Cards.sum(WIDTH).withWiring(Adders.ripple(WIDTH, Solder.pt(), true, true));
    RawHost host = host(card);
    long seed = System.nanoTime();
    Random random = new Random(seed);
    for (int i = 0; i < 40; i++) {
      long a = random.nextInt(1 << WIDTH);
      long b = random.nextInt(1 << WIDTH);
      long carry = random.nextInt(2);
      long word = a | b << WIDTH | carry << 2 * WIDTH;
      Result result =
          host.run(
              Steps.number(i)
                  .drive(word, 2 * WIDTH + 1)
                  .expect(a + b + carry, (2L << WIDTH) - 1)
                  .times(700_000, 800_000, 65_000)
                  .step());
      assertThat(Steps.bits(result.last()))
          .as("%d + %d + %d, seed %d", a, b, carry, seed)
          .isEqualTo(a + b + carry);
      assertThat(result.has(ResultFlag.QUIET)).isTrue();
      assertThat(result.has(ResultFlag.MATCHED)).isTrue();
      host.send(new Beat(i + 1));
      host.rest(1000);
    }
  }

  /** Common practice: a plus-one chain on its own input never comes to rest; the fixture trips. */
  @Test
  void aFedBackChainTripsOnChatter() {
    Card card = Cards.fedBack().withWiring(Adders.fedBack(4, Solder.pt()));
    Status status = tripped(card, 1);
    assertThat(status.cause()).isEqualTo(DropCause.CHATTER);
    assertThat(status.chattering()).isZero();
  }

  @Test
  void aShortTripsTheSupply() {
    Card card = Cards.named("pick").bus("A", 1, Role.INPUT).output("S", 1, "A").card();
    Wiring wiring =
        new Solder()
            .line("A")
            .line("S")
            .relay(
                "K1",
                Solder.pt(),
                "A",
                Solder.GROUND,
                Solder.contact(Solder.PLUS, "S", null),
                Solder.contact("S", Solder.GROUND, null))
            .wiring();
    assertThat(tripped(card.withWiring(wiring), 1).cause()).isEqualTo(DropCause.SUPPLY);
  }

  @Test
  void saysWhatABenchWouldNotShow() {
    Card card = Cards.named("pick").output("S", 1, "0").card();
    Wiring wiring =
        new Solder()
            .line("S")
            .fuse("F1", "IN", Solder.PLUS, 2000)
            .wire("W1", Solder.PLUS, Solder.GROUND)
            .resistor("R1", "IN", "S", 1000)
            .wiring("IN");
    int[] none = {};
    SimSettings settings = SimSettings.of(12, "01");
    SimulatedBench wired =
        new SimulatedBench(card.withWiring(wiring), none, new int[] {0}, settings);
    CircuitWarnings warnings = wired.warnings().orElseThrow();
    assertThat(warnings.blownFuses()).containsExactly("F1");
    assertThat(warnings.weakReadings()).as("1 kohm into 1 kohm").isPositive();
    assertThat(new SimulatedBench(card, none, new int[] {0}, settings).warnings()).isEmpty();
  }

  private static Status tripped(Card card, long word) {
    RawHost host = host(card);
    host.send(
        Steps.number(0)
            .drive(word, Cards.driven(card).length)
            .times(900_000, 950_000, 65_000)
            .audited()
            .step());
    List<Message> all = host.rest(960_000);
    Status status =
        all.stream()
            .filter(Status.class::isInstance)
            .map(Status.class::cast)
            .reduce((first, second) -> second)
            .orElseThrow();
    assertThat(status.state()).isEqualTo(FixtureState.TRIPPED);
    return status;
  }
}
