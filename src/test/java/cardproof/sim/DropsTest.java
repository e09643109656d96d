package cardproof.sim;

import static cardproof.link.FixtureState.HELD;
import static cardproof.link.FixtureState.OPENED;
import static cardproof.link.FixtureState.READY;
import static cardproof.link.FixtureState.RUN;
import static cardproof.link.FixtureState.SAFE;
import static cardproof.link.FixtureState.TRIPPED;
import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Arm;
import cardproof.link.Beat;
import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.Hello;
import cardproof.link.Message;
import cardproof.link.Nack;
import cardproof.link.NackReason;
import cardproof.link.Protocol;
import cardproof.link.Read;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Status;
import cardproof.link.Stop;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Everything that takes the drives down, when it does, and what is said of it: {@code
 * firmware-notes/protocol.md}, sections 4, 6 and 7.
 */
class DropsTest {
  private static final long STEP_US = 65_000;

  private final List<Long> switchedUs = new ArrayList<>();
  private boolean anyOn;

  private RawHost armed(ScriptedCircuit card, int silenceMs, int changes, long holdMs) {
    SimulatedBench bench = card.bench(2, 2);
    bench.watchDrives(
        (nowNs, on) -> {
          switchedUs.add(nowNs / 1000);
          anyOn = !on.isEmpty();
        });
    RawHost host = new RawHost(bench);
    host.hello();
    host.open(RawHost.SESSION, host.rules(silenceMs, 8, changes, holdMs));
    host.ask(new Arm(), Status.class);
    return host;
  }

  private RawHost armed(ScriptedCircuit card) {
    return armed(card, 1000, 5000, 10_000);
  }

  private static Status last(List<Message> all) {
    return (Status) all.get(all.size() - 1);
  }

  @Test
  void silenceDropsTheDrivesAndStopsTheStep() {
    RawHost host = armed(new ScriptedCircuit(), 100, 5000, 10_000);
    host.send(Steps.number(0).drive(1, 2).expect(1, 1).step());
    host.send(Steps.number(1).drive(2, 2).step());

    List<Message> all = host.rest(1_000_000);

    assertThat(switchedUs).containsExactly(0L, 100_000L);
    assertThat(anyOn).isFalse();
    assertThat(all).hasSize(2);
    Result result = (Result) all.get(0);
    assertThat(result.has(ResultFlag.STOPPED)).isTrue();
    assertThat(result.durationUs()).isEqualTo(100_000);
    assertThat(last(all).state()).isEqualTo(SAFE);
    assertThat(last(all).cause()).isEqualTo(DropCause.SILENCE);
    assertThat(last(all).nowUs()).isEqualTo(100_000);
    assertThat(last(all).finished()).isEqualTo(1);
    assertThat(last(all).next()).isEqualTo(2);
    assertThat(host.ask(new Read(0), Result.class)).isEqualTo(result);
  }

  @Test
  void silenceCountsFromTheLastFrameOfTheSession() {
    RawHost host = armed(new ScriptedCircuit(), 100, 5000, 10_000);
    host.run(Steps.number(0).drive(1, 2).step());
    host.rest(90_000 - STEP_US);
    host.send(new Beat(0));
    host.rest(90_000);
    // neither a greeting, nor a frame of another session, nor a damaged one keeps the drives on
    host.sendAs(7, new Hello(1, 0));
    host.sendAs(7, new Beat(0));
    byte[] damaged = host.encode(new Beat(0));
    damaged[3] ^= 4;
    host.wire.write(damaged);

    List<Message> all = host.rest(200_000);

    assertThat(last(all).cause()).isEqualTo(DropCause.SILENCE);
    assertThat(last(all).framesDamaged()).isEqualTo(1);
    assertThat(switchedUs).containsExactly(0L, 190_000L);
  }

  @Test
  void silenceEndsASessionThatWasNeverArmed() {
    RawHost host = FixtureStatesTest.in(OPENED);

    Status status = last(host.rest(2_000_000));

    assertThat(status.state()).isEqualTo(SAFE);
    assertThat(status.cause()).isEqualTo(DropCause.SILENCE);
  }

  @Test
  void aBeatInTimeKeepsTheDrivesOn() {
    RawHost host = armed(new ScriptedCircuit(), 100, 5000, 10_000);
    host.run(Steps.number(0).drive(1, 2).step());
    for (int i = 0; i < 50; i++) {
      assertThat(host.ask(new Beat(0), Status.class).state()).isEqualTo(READY);
      host.rest(99_000);
    }
    assertThat(switchedUs).containsExactly(0L);
  }

  @Test
  void eightMovesAreChatter() {
    RawHost host = armed(new ScriptedCircuit().flipEvery(1, 20, 30));
    host.send(Steps.number(0).drive(1, 2).step());
    host.send(Steps.number(1).drive(2, 2).step());

    List<Message> all = host.rest(400_000);

    assertThat(switchedUs).containsExactly(0L, 160_000L);
    Result result = (Result) all.get(0);
    assertThat(result.has(ResultFlag.TRIPPED)).isTrue();
    assertThat(result.durationUs()).isEqualTo(160_000);
    assertThat(result.moved().get(0).moves()).isEqualTo(8);
    assertThat(last(all).state()).isEqualTo(TRIPPED);
    assertThat(last(all).cause()).isEqualTo(DropCause.CHATTER);
    assertThat(last(all).chattering()).isEqualTo(1);
    assertThat(all).as("step 1 never runs").hasSize(2);
    assertThat(host.ask(new Read(1), Status.class).state()).isEqualTo(TRIPPED);
  }

  @Test
  void sevenMovesAreNot() {
    RawHost host = armed(new ScriptedCircuit().flipEvery(1, 20, 7));

    assertThat(host.run(Steps.number(0).step()).has(ResultFlag.TRIPPED)).isFalse();
    assertThat(host.ask(new Beat(0), Status.class).chattering()).isEqualTo(Protocol.NO_WATCH);
  }

  @Test
  void movesAreCountedAnewInEachStep() {
    RawHost host = armed(new ScriptedCircuit().flipEvery(1, 20, 14));
    host.send(Steps.number(0).drive(1, 2).times(1, 150_000, 1000).expect(1, 1).audited().step());
    host.send(Steps.number(1).drive(2, 2).times(1, 150_000, 1000).audited().step());

    List<Message> all = host.rest(400_000);

    assertThat(all).hasSize(2);
    assertThat(((Result) all.get(0)).moved().get(0).moves()).isEqualTo(7);
    assertThat(((Result) all.get(1)).moved().get(0).moves()).isEqualTo(7);
  }

  @Test
  void manyChangesAreChatterHoweverClose() {
    RawHost host = armed(new ScriptedCircuit().flipEvery(0, 0.1, 40), 1000, 16, 10_000);
    host.send(Steps.number(0).drive(1, 2).step());

    Status status = last(host.rest(400_000));

    assertThat(status.cause()).isEqualTo(DropCause.CHATTER);
    assertThat(status.chattering()).isZero();
    assertThat(switchedUs).containsExactly(0L, 1600L);
  }

  @Test
  void whatMovesAfterAStepCountsForIt() {
    RawHost host = armed(new ScriptedCircuit().flip(0, 10, 20, 30, 40, 50, 60, 110, 130));
    host.run(Steps.number(0).drive(1, 2).times(1, 100_000, 10_000).step());

    Status status = last(host.rest(100_000));

    assertThat(status.state()).isEqualTo(TRIPPED);
    assertThat(switchedUs).containsExactly(0L, 130_000L);
    assertThat(Steps.bits(status.stirred())).isEqualTo(1);
  }

  @Test
  void onePatternIsHeldNoLongerThanAllowedWhileIdle() {
    RawHost host = armed(new ScriptedCircuit(), 10_000, 5000, 500);
    host.run(Steps.number(0).drive(1, 2).step());
    host.run(Steps.number(1).drive(2, 2).step());

    Status status = last(host.rest(2_000_000));

    assertThat(status.state()).isEqualTo(TRIPPED);
    assertThat(status.cause()).isEqualTo(DropCause.HOLD_LIMIT);
    assertThat(switchedUs).containsExactly(0L, STEP_US, STEP_US + 500_000);
  }

  @Test
  void onePatternIsHeldNoLongerThanAllowedWhileRunning() {
    RawHost host = armed(new ScriptedCircuit(), 10_000, 5000, 200);
    host.send(Steps.number(0).drive(1, 2).expect(1, 1).step());

    List<Message> all = host.rest(2_000_000);

    assertThat(((Result) all.get(0)).has(ResultFlag.TRIPPED)).isTrue();
    assertThat(((Result) all.get(0)).durationUs()).isEqualTo(200_000);
    assertThat(last(all).cause()).isEqualTo(DropCause.HOLD_LIMIT);
  }

  @Test
  void nothingIsHeldBeforeTheFirstStep() {
    RawHost host = armed(new ScriptedCircuit(), 10_000, 5000, 200);

    assertThat(host.rest(5_000_000)).isEmpty();
  }

  @Test
  void aTrippedSupplyDropsTheDrives() {
    RawHost host = armed(new ScriptedCircuit().tripSupply(12.34));
    host.send(Steps.number(0).drive(1, 2).step());

    List<Message> all = host.rest(400_000);

    assertThat(((Result) all.get(0)).has(ResultFlag.TRIPPED)).isTrue();
    assertThat(last(all).cause()).isEqualTo(DropCause.SUPPLY);
    assertThat(switchedUs).as("seen at the next sample").containsExactly(0L, 12_350L);
  }

  @Test
  void aSupplyThatTrippedBeforeLetsNoStepStart() {
    RawHost host = armed(new ScriptedCircuit().tripSupply(1));
    host.rest(50_000);
    host.hello();
    host.open(99);
    host.ask(new Arm(), Status.class);

    Status status = last(host.rest(1000));

    assertThat(status.state()).isEqualTo(TRIPPED);
    assertThat(switchedUs).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(
      value = FixtureState.class,
      names = {"OPENED", "READY", "RUN", "HELD"})
  void stopDropsAtOnce(FixtureState state) {
    RawHost host = FixtureStatesTest.in(state);
    host.send(new Stop());

    List<Message> all = host.rest(0);

    assertThat(last(all).state()).isEqualTo(SAFE);
    assertThat(last(all).cause()).isEqualTo(DropCause.STOP);
    assertThat(last(all).on().isEmpty()).isTrue();
    assertThat(all).hasSize(state == RUN ? 2 : 1);
    if (state == RUN) {
      assertThat(((Result) all.get(0)).has(ResultFlag.STOPPED)).isTrue();
      assertThat(((Result) all.get(0)).durationUs()).isEqualTo(1000);
    }
    assertThat(host.rest(5_000_000)).as("nothing runs any more").isEmpty();
  }

  @ParameterizedTest
  @EnumSource(
      value = FixtureState.class,
      names = {"SAFE", "OPENED", "READY", "RUN", "HELD", "TRIPPED"})
  void openDropsAndForgets(FixtureState state) {
    RawHost host = FixtureStatesTest.in(state);
    host.hello();

    Status status = host.open(99);

    assertThat(status.state()).isEqualTo(OPENED);
    assertThat(status.cause()).isEqualTo(DropCause.OPEN);
    assertThat(status.chattering()).isEqualTo(Protocol.NO_WATCH);
    assertThat(status.on().isEmpty()).isTrue();
    assertThat(new int[] {status.next(), status.finished(), status.acked()}).containsOnly(0);
    assertThat(host.ask(new Read(0), Status.class).state()).isEqualTo(OPENED);
    assertThat(host.rest(500_000)).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(
      value = FixtureState.class,
      names = {"SAFE", "OPENED", "READY", "RUN", "HELD", "TRIPPED"})
  void aResetForgetsAllAndIsAnotherBoot(FixtureState state) {
    RawHost host = FixtureStatesTest.in(state);
    int before = host.board().boot();
    ((SimulatedBench) host.wire).resetFixture(ResetCause.BROWN_OUT);

    assertThat(host.rest(2_000_000)).as("a chip that was reset says nothing").isEmpty();
    assertThat(host.hello().boot()).isNotEqualTo(before);
    assertThat(host.board().resetCause()).isEqualTo(3);
    assertThat(host.board().session()).isZero();
    assertThat(host.ask(new Beat(0), Nack.class).reason()).isEqualTo(NackReason.WRONG_SESSION);
    Status status = host.open(99);
    assertThat(status.framesWhole()).isEqualTo(3);
    assertThat(status.on().isEmpty()).isTrue();
    assertThat(status.state()).isNotEqualTo(HELD);
  }
}
