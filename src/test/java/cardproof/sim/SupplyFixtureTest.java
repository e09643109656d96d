package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.fault.FaultNames;
import cardproof.link.Arm;
import cardproof.link.Capability;
import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.Nack;
import cardproof.link.NackReason;
import cardproof.link.ReadSense;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Sense;
import cardproof.link.Status;
import cardproof.link.Step;
import cardproof.link.StepSense;
import cardproof.link.Stop;
import cardproof.link.Supply;
import cardproof.link.SupplyReply;
import cardproof.sim.circuit.Adders;
import cardproof.sim.circuit.Solder;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Supply switch and sense of the simulated fixture: protocol.md, sections 9.3 and 9.4. */
class SupplyFixtureTest {
  private static final SimSupply BOTH = new SimSupply(true, true, 30_000, 10, 10_000, 1, 0);
  private static final int A_AND_B = 0b11_0001;

  private static Card wired() {
    return Cards.sum(4).withWiring(Adders.ripple(4, Solder.pt(), true, true));
  }

  private static RawHost hello(Card card, SimSupply supply, int minor) {
    RawHost host =
        new RawHost(
            new SimulatedBench(
                card,
                Cards.driven(card),
                Cards.watched(card),
                SimSettings.of(3, "01").withSupply(supply)));
    host.hello(minor);
    return host;
  }

  private static RawHost open(Card card, SimSupply supply) {
    RawHost host = hello(card, supply, 1);
    host.open(RawHost.SESSION, host.rules(1000, 60, 5000, 10_000));
    return host;
  }

  private static void power(RawHost host, boolean on) {
    assertThat(host.ask(new Supply(on), SupplyReply.class).on()).isEqualTo(on);
  }

  private static Step step(int number, long level) {
    return Steps.number(number).drive(level, 9).step();
  }

  @Test
  void whatItCanDoIsWhatItsSettingsSay() {
    assertThat(hello(wired(), BOTH, 1).board().canSwitchSupply()).isTrue();
    assertThat(hello(wired(), BOTH, 1).board().senses()).isTrue();
    assertThat(hello(wired(), SimSupply.UNSEEN, 1).board().has(Capability.SUPPLY_SWITCH)).isFalse();
    assertThat(hello(wired(), SimSupply.UNSEEN, 1).board().has(Capability.SENSE)).isFalse();
    // of a card that follows its behaviour there are no currents to measure
    assertThat(hello(Cards.sum(4), BOTH, 1).board().canSwitchSupply()).isTrue();
    assertThat(hello(Cards.sum(4), BOTH, 1).board().senses()).isFalse();
  }

  @Test
  void itIsOffAfterAResetAndTheCardIsUnpowered() {
    RawHost host = open(wired(), BOTH);
    assertThat(host.ask(new ReadSense(), Sense.class)).isEqualTo(new Sense(0, 0));
    host.ask(new Arm(), Status.class);
    Result dark = host.run(step(0, A_AND_B));
    assertThat(dark.last().isEmpty()).isTrue();
    assertThat(dark.moved()).isEmpty();
    power(host, true);
    Result lit = host.run(step(1, A_AND_B));
    assertThat(lit.last().isEmpty()).isFalse();
  }

  /**
   * TE Schrack PT data sheet: 192 ohm at 12 V, 62.5 mA a coil. Beside it here two lamps of 40 mA,
   * on A[0] and on S[0], and an input of 1 kohm, 12 mA.
   */
  @Test
  void aStepCarriesRailAndCurrent() {
    RawHost host = open(wired(), BOTH);
    power(host, true);
    host.ask(new Arm(), Status.class);
    StepSense dark = host.run(step(0, 0)).sense().orElseThrow();
    assertThat(dark).isEqualTo(new StepSense(12_000, 12_000, 0, 0));
    Result one = host.run(step(1, 1));
    assertThat(one.last().cardinality()).isEqualTo(1);
    StepSense lit = one.sense().orElseThrow();
    assertThat(lit.railMv()).isEqualTo(12_000);
    assertThat(lit.currentMa()).isBetween(154, 155);
    assertThat(lit.highestCurrentMa()).isGreaterThanOrEqualTo(lit.currentMa());
    assertThat(host.ask(new ReadSense(), Sense.class))
        .isEqualTo(new Sense(12_000, lit.currentMa()));
  }

  @Test
  void theDrivesGoDownFirstAndStayDown() {
    RawHost host = open(wired(), BOTH);
    power(host, true);
    host.ask(new Arm(), Status.class);
    host.run(step(0, A_AND_B));
    power(host, false);
    power(host, true);
    Status now = host.ask(new cardproof.link.Beat(0), Status.class);
    assertThat(now.on().isEmpty()).isTrue();
    assertThat(now.state()).isEqualTo(FixtureState.READY);
  }

  @Test
  void switchingToWhatItIsLeavesTheDrivesAlone() {
    RawHost host = open(wired(), BOTH);
    power(host, true);
    host.ask(new Arm(), Status.class);
    host.run(step(0, A_AND_B));
    power(host, true);
    assertThat(host.ask(new cardproof.link.Beat(0), Status.class).on().isEmpty()).isFalse();
  }

  @Test
  void whenItMayNotBeSwitched() {
    RawHost host = open(wired(), BOTH);
    power(host, true);
    host.ask(new Arm(), Status.class);
    host.send(step(0, 1));
    assertThat(host.ask(new Supply(false), Nack.class).reason()).isEqualTo(NackReason.WRONG_STATE);
    host.expect(Result.class, 1_000_000);
    host.ask(new Stop(), Status.class);
    assertThat(host.ask(new Supply(false), Nack.class).reason()).isEqualTo(NackReason.WRONG_STATE);
    // STOP leaves the switch as it is
    assertThat(host.ask(new ReadSense(), Sense.class).railMv()).isEqualTo(12_000);
  }

  @Test
  void aRegisterLosesItsWord() {
    Card card = Cards.hold();
    RawHost host = open(card, BOTH);
    power(host, true);
    host.ask(new Arm(), Status.class);
    long load = 0x5A5 | 1 << 12 | 1 << 13;
    host.run(Steps.number(0).drive(load, 14).step());
    assertThat(host.run(Steps.number(1).drive(1 << 13, 14).step()).last().toLongArray())
        .containsExactly(0x5A5);
    power(host, false);
    assertThat(host.run(Steps.number(2).drive(1 << 13, 14).step()).last().isEmpty()).isTrue();
    power(host, true);
    assertThat(host.run(Steps.number(3).drive(1 << 13, 14).step()).last().toLongArray())
        .isNotEqualTo(new long[] {0x5A5});
  }

  /** The eight bytes at the end are not sent, not only not read. */
  @Test
  void aHostOfTheFirstVersionSeesResultsAsTheyWere() {
    assertThat(longestAnswer(1) - longestAnswer(0)).isBetween(8, 9);
  }

  private static int longestAnswer(int minor) {
    RawHost host = hello(wired(), BOTH, minor);
    host.open(RawHost.SESSION, host.rules(1000, 60, 5000, 10_000));
    host.ask(new Arm(), Status.class);
    int[] length = new int[1];
    ((SimulatedBench) host.wire)
        .trace((nowNs, toFixture, bytes) -> length[0] = toFixture ? length[0] : bytes.length);
    assertThat(host.run(step(0, 0)).sense().isPresent()).isEqualTo(minor == 1);
    return length[0];
  }

  @Test
  void aShortTripsNothingWhileTheSupplyIsOff() {
    Card card = wired();
    RawHost host =
        new RawHost(
            new SimulatedBench(
                card,
                Cards.driven(card),
                Cards.watched(card),
                SimSettings.of(3, "01")
                    .withSupply(BOTH)
                    .withFaults(List.of(FaultNames.parse("A[0] bridged to GND", card)))));
    host.hello(1);
    host.open(RawHost.SESSION, host.rules(1000, 60, 5000, 10_000));
    host.ask(new Arm(), Status.class);
    assertThat(host.run(step(0, 1)).has(ResultFlag.TRIPPED)).isFalse();
    power(host, true);
    assertThat(host.run(step(1, 1)).has(ResultFlag.TRIPPED)).isTrue();
  }

  @Test
  void aTripTurnsTheSwitchOffAndSwitchingOnStartsAnew() {
    ScriptedSupply card = new ScriptedSupply();
    RawHost host = new RawHost(card.bench(4, 2, SimSettings.of(1, "01").withSupply(BOTH)));
    host.hello(1);
    host.open(RawHost.SESSION, host.rules(1000, 60, 5000, 10_000));
    power(host, true);
    host.ask(new Arm(), Status.class);
    card.trip();
    host.send(Steps.number(0).drive(1, 4).step());
    assertThat(host.expect(Status.class, 1_000_000).cause()).isEqualTo(DropCause.SUPPLY);
    assertThat(card.powered()).isFalse();
    host.open(RawHost.SESSION + 1, host.usualAfter(RawHost.SESSION));
    power(host, true);
    assertThat(card.powered()).isTrue();
  }
}
