package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Beat;
import cardproof.link.Capability;
import cardproof.link.Edge;
import cardproof.link.Edges;
import cardproof.link.FixtureState;
import cardproof.link.HelloReply;
import cardproof.link.Message;
import cardproof.link.Nack;
import cardproof.link.NackReason;
import cardproof.link.Read;
import cardproof.link.ReadEdges;
import cardproof.link.ReadSense;
import cardproof.link.Result;
import cardproof.link.ResultFlag;
import cardproof.link.Sequence;
import cardproof.link.Status;
import cardproof.link.Step;
import cardproof.link.Stop;
import cardproof.link.Supply;
import cardproof.link.Switching;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Timed sequences and every edge: {@code firmware-notes/protocol.md}, section 9. */
class TimedStepsTest {
  private static final int DRIVES = 8;
  private static final long MS = 1000;

  private final List<String> switched = new ArrayList<>();

  @Test
  void entriesAreSwitchedAtTheirTimesToTheNanosecond() {
    RawHost host = host(new ScriptedCircuit());
    Result result = host.run(sequence(step(0, 1), entry(20_001, 3), entry(60_000, 2)));
    long startNs = Long.parseLong(switched.get(0).split(" ")[0]);
    assertThat(switched)
        .containsExactly(
            startNs + " 1", (startNs + 20_001_000) + " 3", (startNs + 60_000_000) + " 2");
    assertThat(result.durationUs()).isEqualTo(60 * MS + 65 * MS);
    assertThat(result.skewUs()).isZero();
    assertThat(result.has(ResultFlag.EARLY)).isTrue();
  }

  /** All matches and nothing moves, so a step would end at 65 ms; the sequence goes on. */
  @Test
  void itDoesNotEndBeforeItsLastEntryAndThenOneQuietWindow() {
    RawHost host = host(new ScriptedCircuit());
    assertThat(host.run(sequence(step(0, 1), entry(150_000, 3))).durationUs()).isEqualTo(215 * MS);
    assertThat(host.run(sequence(step(1, 1), entry(380_000, 3))).has(ResultFlag.QUIET)).isFalse();
  }

  /** Line 0 moves at 10 ms and at 110 ms; an entry at 100 ms breaks the silence between. */
  @Test
  void silenceIsCountedFromEntriesToo() {
    RawHost host = host(new ScriptedCircuit().flip(0, 10, 110));
    Result result = host.run(sequence(step(0, 1), entry(100_000, 3)));
    assertThat(result.gapUs()).isEqualTo(10 * MS);
    assertThat(result.moved()).singleElement().satisfies(m -> assertThat(m.moves()).isEqualTo(2));
  }

  /** Twelve moves in one step would trip; four after each of three settings do not. */
  @Test
  void chatterIsCountedAnewFromEachEntry() {
    Sequence sequence = sequence(step(0, 1), entry(40_000, 3), entry(80_000, 1));
    assertThat(host(new ScriptedCircuit().flipEvery(0, 10, 12)).run(sequence).flags() & 16)
        .isZero();
    Result tripped = host(new ScriptedCircuit().flipEvery(0, 4, 30)).run(sequence);
    assertThat(tripped.has(ResultFlag.TRIPPED)).isTrue();
    assertThat(tripped.durationUs()).isEqualTo(32 * MS);
  }

  @Test
  void whatIsLeftOfADroppedSequenceIsNeverSwitched() {
    RawHost host = host(new ScriptedCircuit());
    host.send(sequence(step(0, 1), entry(200_000, 3)));
    host.rest(100 * MS);
    host.send(new Stop());
    host.rest(300 * MS);
    assertThat(switched.stream().map(line -> line.split(" ")[1])).containsExactly("1", "0");
  }

  /** OPEN allows 10 s of one pattern; each of these is held for less. */
  @Test
  void theHoldTimeCountsFromTheEntryThatSetThePattern() {
    RawHost host = host(new ScriptedCircuit());
    Step step = Steps.number(0).drive(1, DRIVES).times(1, 25_000_000, 1000).audited().step();
    Result result = host.run(sequence(step, entry(9_000_000, 3), entry(18_000_000, 1)));
    assertThat(result.has(ResultFlag.TRIPPED)).isFalse();
    assertThat(result.durationUs()).isEqualTo(25_000_000);
  }

  @Test
  void oneAtATime() {
    RawHost host = host(new ScriptedCircuit());
    Sequence first = sequence(step(0, 1), entry(50_000, 3));
    host.send(first);
    assertThat(host.ask(step(1, 2), Nack.class))
        .isEqualTo(new Nack(NackReason.NO_SLOT_FREE, 6, 1, 0));
    assertThat(host.ask(first, Status.class).next()).isEqualTo(1);
    assertThat(host.expect(Result.class, 1_000_000).number()).isZero();
    host.send(step(1, 2));
    assertThat(host.ask(sequence(step(2, 1), entry(1, 3)), Nack.class))
        .isEqualTo(new Nack(NackReason.NO_SLOT_FREE, 0x10, 2, 0));
    host.expect(Result.class, 1_000_000);
    assertThat(host.run(sequence(step(2, 1), entry(1, 3))).number()).isEqualTo(2);
    assertThat(host.ask(new Read(0), Result.class).number()).isZero();
  }

  @Test
  void whatASequenceMayNotSay() {
    RawHost host = host(new ScriptedCircuit());
    int entries = 21 + 2 + 3 + 1;
    assertThat(refusal(host, sequence(step(0, 1), entry(400_000, 3))))
        .isEqualTo(new Nack(NackReason.BAD_FIELD, 0x10, 0, entries));
    assertThat(refusal(host, sequence(step(0, 1), entry(5, 3), entry(5, 1))))
        .isEqualTo(new Nack(NackReason.BAD_FIELD, 0x10, 0, entries + 6));
    assertThat(refusal(host, sequence(step(0, 1))))
        .isEqualTo(new Nack(NackReason.BAD_FIELD, 0x10, 0, entries - 1));
    assertThat(refusal(host, new Supply(true)).reason()).isEqualTo(NackReason.UNKNOWN_TYPE);
    assertThat(refusal(host, new ReadSense()).reason()).isEqualTo(NackReason.UNKNOWN_TYPE);
  }

  @Test
  void drivesOfEveryEntryAreTestedBeforeItIsTaken() {
    RawHost host = new RawHost(new ScriptedCircuit().bench(DRIVES, 2));
    host.hello(1);
    var usual = host.usual();
    host.open(
        RawHost.SESSION,
        new cardproof.link.Open(
            usual.boot(), 0, 1000, 8, 5000, 2000, 10_000, Steps.set(1), usual.watches()));
    Step step = Steps.number(0).drive(1, 1).step();
    assertThat(refusal(host, sequence(step, entry(10, 3))).reason())
        .isEqualTo(NackReason.DRIVE_NOT_ALLOWED);
  }

  @Test
  void everyEdgeInTheOrderSeen() {
    RawHost host = host(new ScriptedCircuit().flip(0, 10, 10.4, 11).flip(1, 10, 30));
    Result result = host.run(captured(step(0, 1)));
    assertThat(result.moved()).hasSize(2);
    Edges edges = host.ask(new ReadEdges(0, 0), Edges.class);
    assertThat(edges)
        .isEqualTo(
            new Edges(
                0,
                5,
                0,
                0,
                List.of(
                    new Edge(10_000, 0, true),
                    new Edge(10_000, 1, true),
                    new Edge(10_400, 0, false),
                    new Edge(11_000, 0, true),
                    new Edge(30_000, 1, false))));
    assertThat(host.ask(new ReadEdges(0, 3), Edges.class).edges())
        .isEqualTo(edges.edges().subList(3, 5));
    assertThat(host.ask(new ReadEdges(0, 9), Edges.class))
        .isEqualTo(new Edges(0, 5, 0, 5, List.of()));
    host.ask(new ReadEdges(1, 0), Status.class);
    assertThat(host.ask(captured(step(1, 1)), Nack.class).reason())
        .isEqualTo(NackReason.NO_SLOT_FREE);
    host.ask(new Beat(1), Status.class);
    host.ask(new ReadEdges(0, 0), Status.class);
    assertThat(host.run(captured(step(1, 1))).moved()).isEmpty();
    assertThat(host.ask(new ReadEdges(1, 0), Edges.class).kept()).isZero();
  }

  @Test
  void edgesOfWhatTrippedCanBeRead() {
    RawHost host = host(new ScriptedCircuit().flipEvery(0, 4, 30));
    assertThat(host.run(captured(step(0, 1))).has(ResultFlag.TRIPPED)).isTrue();
    assertThat(host.expect(Status.class, 0).state()).isEqualTo(FixtureState.TRIPPED);
    assertThat(host.ask(new ReadEdges(0, 0), Edges.class).kept()).isEqualTo(8);
  }

  /** A frame has room for 98 edges, and the fixture for 4096. */
  @Test
  void moreEdgesThanOneFrameHolds() {
    SimulatedBench bench =
        new ScriptedCircuit()
            .flipEvery(0, 0.1, 4500)
            .bench(DRIVES, 2, new SimSettings(1, "01", List.of(), 4, 50_000, 0, List.of(), "b"));
    RawHost host = new RawHost(bench);
    host.hello(1);
    host.open(RawHost.SESSION, host.rules(1000, 8, 65_000, 10_000));
    host.ask(new cardproof.link.Arm(), Status.class);
    host.run(captured(Steps.number(0).drive(1, DRIVES).times(1, 600_000, 65_000).audited().step()));
    List<Edge> all = new ArrayList<>();
    Edges part = host.ask(new ReadEdges(0, 0), Edges.class);
    while (!part.edges().isEmpty()) {
      all.addAll(part.edges());
      part = host.ask(new ReadEdges(0, all.size()), Edges.class);
    }
    assertThat(all).hasSize(4096);
    assertThat(part.unkept()).isEqualTo(404);
    for (int i = 0; i < all.size(); i++) {
      assertThat(all.get(i)).isEqualTo(new Edge(100L * (i + 1), 0, i % 2 == 0));
    }
  }

  @Test
  void eachHostIsAnsweredInItsOwnVersion() {
    RawHost host = new RawHost(new ScriptedCircuit().bench(DRIVES, 2));
    HelloReply old = host.hello(0);
    assertThat(old.minor()).isZero();
    assertThat(old.mostEntries()).isZero();
    HelloReply now = host.hello(1);
    assertThat(now.minor()).isEqualTo(1);
    assertThat(now.has(Capability.SEQUENCES)).isTrue();
    assertThat(now.mostEntriesOfSequence()).isEqualTo((512 - 9 - 27) / 6);
    assertThat(now.mostEdges()).isEqualTo(4096);
    assertThat(host.hello(7).minor()).isEqualTo(1);
  }

  @Test
  void aFixtureOfVersionOneOhKnowsNothingOfThis() {
    SimSettings old = SimSettings.of(1, "01").withProtocolMinor(0);
    RawHost host = RawHost.armed(new ScriptedCircuit().bench(DRIVES, 2, old));
    assertThat(host.hello(1).minor()).isZero();
    assertThat(host.board().mostEntriesOfSequence()).isZero();
    assertThat(host.board().captures()).isFalse();
    assertThat(refusal(host, sequence(step(0, 1), entry(1, 3))))
        .isEqualTo(new Nack(NackReason.UNKNOWN_TYPE, 0x10, 0, 0));
    assertThat(refusal(host, new ReadEdges(0, 0)).reason()).isEqualTo(NackReason.UNKNOWN_TYPE);
    assertThat(host.run(step(0, 1)).number()).isZero();
  }

  private static Nack refusal(RawHost host, Message message) {
    return host.ask(message, Nack.class);
  }

  /** A host of version 1.1, armed. */
  private RawHost host(ScriptedCircuit circuit) {
    SimulatedBench bench =
        circuit.bench(
            DRIVES, 2, new SimSettings(1, "01", List.of(), 4, 100_000, 0, List.of(), "bench"));
    switched.clear();
    bench.watchDrives((nowNs, on) -> switched.add(nowNs + " " + Steps.bits(on)));
    RawHost host = RawHost.armed(bench);
    host.hello(1);
    return host;
  }

  private static Step step(int number, long drive) {
    return Steps.number(number).drive(drive, DRIVES).step();
  }

  private static Switching entry(long atUs, long drive) {
    return new Switching(atUs, Steps.set(drive), RawHost.all(DRIVES));
  }

  private static Sequence sequence(Step step, Switching... entries) {
    return new Sequence(step, List.of(entries));
  }

  private static Step captured(Step step) {
    return new Step(
        step.number(),
        step.gate(),
        step.audit(),
        step.dwell(),
        true,
        step.limitUs(),
        step.watchUs(),
        step.quietUs(),
        step.dwellUs(),
        step.level(),
        step.enable(),
        step.expect(),
        step.care(),
        step.still());
  }
}
