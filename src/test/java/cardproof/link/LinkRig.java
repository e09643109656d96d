package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.ReferenceFixture.Answer;
import cardproof.link.ReferenceFixture.Run;
import cardproof.sim.line.LineFault;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
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
  long commitNs;
  private long startNs;
  private Optional<LinkEvent> later = Optional.empty();

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

  /** What befalls the line from now on, in place of all before; as {@link LineFault} has it. */
  void faults(String... names) {
    wire.faults(Arrays.stream(names).map(LineFault::parse).toList());
  }

  /** So much of everything that befalls frames. */
  static String noise(int percent) {
    return String.format(
        "link: lose %1$d %%, repeat %1$d %%, flip %1$d %%, reorder %1$d %% within 120 ms", percent);
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
    LinkEvent event = later.isPresent() ? later.get() : link.attend(calledNs + 2000 * MS);
    later = Optional.empty();
    assertThat(wire.nowNs() - calledNs).isLessThanOrEqualTo(2000 * MS);
    if (event instanceof LinkEvent.ResultArrived arrived) {
      results.add(arrived.result());
      takeMore();
      wire.pass(commitNs);
      link.acknowledge(results.size());
      acknowledgements++;
    }
    return event;
  }

  /** Sometimes takes what else is there, so that one acknowledgement covers several steps. */
  private void takeMore() {
    while (later.isEmpty() && random.nextBoolean() && link.eventReady()) {
      LinkEvent event = link.await(wire.nowNs());
      if (event instanceof LinkEvent.ResultArrived arrived) {
        results.add(arrived.result());
      } else {
        later = Optional.of(event);
      }
    }
  }

  /** The time that the steps took, as a multiple of the time that the card needs for them. */
  double slowness(int count) {
    long cardUs = results.subList(0, count).stream().mapToLong(Result::durationUs).sum();
    return (wire.nowNs() - startNs) / 1000.0 / cardUs;
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
