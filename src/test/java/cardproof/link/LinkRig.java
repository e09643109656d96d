package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.NoisyLine.Noise;
import cardproof.link.ReferenceFixture.Answer;
import cardproof.link.ReferenceFixture.Run;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.function.Function;
import java.util.stream.IntStream;

/** A reference fixture on a virtual wire, and a small runner that works through it. */
final class LinkRig {
  static final long MS = 1_000_000;

  final VirtualWire wire;
  final List<Result> results = new ArrayList<>();
  final Random random;
  ReferenceFixture fixture;
  HostLink link;
  int submitted;
  long acknowledgements;
  private long startNs;

  LinkRig(long seed, int slots, int longestFrame, Function<Step, Answer> card) {
    this.random = new Random(seed);
    this.wire =
        new VirtualWire(
            seed,
            line -> {
              fixture = new ReferenceFixture(line, slots, longestFrame, card);
              return fixture;
            });
  }

  static LinkRig quiet(int slots, Function<Step, Answer> card) {
    return new LinkRig(1, slots, 256, card);
  }

  /** A card of relays that takes a while, the same while for the same step. */
  static Answer relays(Step step) {
    return Answer.after(5_000 + Math.floorMod(step.number() * 7919, 40_000));
  }

  LinkRig connected() {
    link = HostLink.connect(wire, random);
    return this;
  }

  LinkRig armed() {
    connected();
    link.open(request());
    link.renewLease();
    link.arm();
    startNs = wire.nowNs();
    return this;
  }

  void noise(Noise noise) {
    wire.noise(noise);
  }

  static OpenRequest request() {
    return new OpenRequest(1000, 8, 5000, 2000, 10_000, set(0xFF), set(0xFF));
  }

  /** A step whose drives spell out the low bits of its number. */
  static StepRequest step(int number, boolean gate) {
    BitSet none = new BitSet();
    return new StepRequest(
        gate,
        false,
        false,
        50_000,
        100_000,
        10_000,
        0,
        set(number & 0xFF),
        set(0xFF),
        none,
        none,
        none);
  }

  static BitSet set(long bits) {
    return BitSet.valueOf(new long[] {bits});
  }

  /** Submits while there is room, and acknowledges results, until so many were handed out. */
  void runTo(int count) {
    while (results.size() < count) {
      LinkEvent event = next(count);
      assertThat(event).isInstanceOf(LinkEvent.ResultArrived.class);
    }
  }

  /** Submits what there is room for and waits for one event; a result is acknowledged at once. */
  LinkEvent next(int count) {
    link.renewLease();
    while (link.hasRoom() && submitted < count) {
      assertThat(link.submit(step(submitted, true))).isEqualTo(submitted);
      submitted++;
    }
    long calledNs = wire.nowNs();
    LinkEvent event = link.await(calledNs + 2000 * MS);
    assertThat(wire.nowNs() - calledNs).isLessThanOrEqualTo(2000 * MS);
    if (event instanceof LinkEvent.ResultArrived arrived) {
      take(arrived.result());
      while (random.nextBoolean() && link.eventReady()) {
        take(((LinkEvent.ResultArrived) link.await(wire.nowNs())).result());
      }
      link.acknowledge(results.size());
      acknowledgements++;
    }
    return event;
  }

  /** The time that the steps took, as a multiple of the time that the card needs for them. */
  double slowness(int count) {
    long cardUs = results.subList(0, count).stream().mapToLong(Result::durationUs).sum();
    return (wire.nowNs() - startNs) / 1000.0 / cardUs;
  }

  private void take(Result result) {
    results.add(result);
  }

  /** Every step ran once, in order, in this boot, and each result given is that of its step. */
  void assertExactlyOnce(int count) {
    assertThat(fixture.runs.stream().map(Run::number))
        .containsExactlyElementsOf(IntStream.range(0, count).boxed().toList());
    assertThat(results.stream().map(Result::number))
        .containsExactlyElementsOf(IntStream.range(0, count).boxed().toList());
    for (int i = 0; i < count; i++) {
      assertThat(fixture.runs.get(i).level()).isEqualTo(set(i & 0xFF));
      assertThat(results.get(i).last()).isEqualTo(set(i & 0xFF));
      assertThat(results.get(i).moved()).hasSize(results.get(i).movedTotal());
    }
  }
}
