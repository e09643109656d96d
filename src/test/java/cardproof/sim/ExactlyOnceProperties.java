package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Beat;
import cardproof.link.Message;
import cardproof.link.Read;
import cardproof.link.Result;
import cardproof.link.Sequence;
import cardproof.link.Status;
import cardproof.link.Step;
import cardproof.link.Switching;
import cardproof.sim.line.Direction;
import cardproof.sim.line.LineFault;
import cardproof.sim.line.NoisyLine;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/**
 * However frames are lost, damaged, repeated and held up on their way, each step runs once and in
 * order, and the counters keep to {@code firmware-notes/protocol.md}, section 3.
 */
class ExactlyOnceProperties {
  private static final int STEPS = 60;
  private static final LineFault NOISE =
      LineFault.parse(
          "link: lose 10 %, lose bytes 10 %, flip 10 %, repeat 30 %, reorder 60 % within 20 ms");

  @Property(tries = 60)
  void eachStepRunsOnceAndInOrder(
      @ForAll long seed, @ForAll @IntRange(min = 2, max = 9) int slots) {
    Random random = new Random(seed);
    List<Long> patterns = new ArrayList<>();
    SimulatedBench bench =
        new ScriptedCircuit().bench(8, 2, SimSettings.of(seed, "01").withSlots(slots));
    bench.watchDrives((nowNs, on) -> patterns.add(Steps.bits(on)));
    RawHost host = RawHost.armed(bench);
    NoisyLine line = NoisyLine.of(Direction.TO_FIXTURE, 0, List.of(NOISE), seed);
    Status status = host.ask(new Beat(0), Status.class);
    while (status.finished() < STEPS) {
      for (int i = 0; i < 6; i++) {
        line.send(host.encode(anything(random, status)), bench.nowNs());
      }
      for (byte[] bytes = take(line, bench); bytes.length > 0; bytes = take(line, bench)) {
        bench.write(bytes);
      }
      bench.write(new byte[1]); // ends what was left open, so that the question is heard
      host.rest(random.nextInt(10_000));
      Status now = host.ask(new Beat(0), Status.class);
      assertCountersMoveOn(status, now, slots);
      status = now;
    }

    assertThat(patterns.subList(0, STEPS))
        .isEqualTo(IntStream.range(0, STEPS).mapToObj(ExactlyOnceProperties::pattern).toList());
  }

  /** The same of sequences, each of which switches three times; and none is begun twice. */
  @Property(tries = 40)
  void eachSequenceRunsOnceAndInOrder(
      @ForAll long seed, @ForAll @IntRange(min = 2, max = 9) int slots) {
    Random random = new Random(seed);
    List<Long> patterns = new ArrayList<>();
    SimulatedBench bench =
        new ScriptedCircuit().bench(8, 2, SimSettings.of(seed, "01").withSlots(slots));
    bench.watchDrives((nowNs, on) -> patterns.add(Steps.bits(on)));
    RawHost host = RawHost.armed(bench);
    NoisyLine line = NoisyLine.of(Direction.TO_FIXTURE, 0, List.of(NOISE), seed);
    Status status = host.ask(new Beat(0), Status.class);
    while (status.finished() < STEPS) {
      for (int i = 0; i < 6; i++) {
        Message message = anything(random, status);
        line.send(
            host.encode(message instanceof Step step ? stepOrSequence(step) : message),
            bench.nowNs());
      }
      for (byte[] bytes = take(line, bench); bytes.length > 0; bytes = take(line, bench)) {
        bench.write(bytes);
      }
      bench.write(new byte[1]);
      host.rest(random.nextInt(10_000));
      Status now = host.ask(new Beat(0), Status.class);
      assertCountersMoveOn(status, now, slots);
      status = now;
    }

    List<Long> expected =
        IntStream.range(0, STEPS)
            .boxed()
            .flatMap(
                number ->
                    isSequence(number)
                        ? Stream.of(pattern(number), 255L, 254L)
                        : Stream.of(pattern(number)))
            .toList();
    assertThat(patterns.subList(0, expected.size())).isEqualTo(expected);
  }

  private static boolean isSequence(int number) {
    return number % 3 == 1;
  }

  private static Message stepOrSequence(Step step) {
    return isSequence(step.number())
        ? new Sequence(
            step,
            List.of(
                new Switching(700, Steps.set(255), RawHost.all(8)),
                new Switching(1500, Steps.set(254), RawHost.all(8))))
        : step;
  }

  private static byte[] take(NoisyLine line, SimulatedBench bench) {
    return line.take(bench.nowNs());
  }

  /** No two neighbours alike, so that every start switches the drives. */
  private static long pattern(int number) {
    return 1 + number % 200;
  }

  private static Message anything(Random random, Status status) {
    int number = Math.max(0, status.next() + random.nextInt(7) - 3);
    return switch (random.nextInt(4)) {
      case 0 -> new Beat(Math.max(0, status.finished() + random.nextInt(3) - 1));
      case 1 -> new Read(number);
      default -> Steps.number(number).drive(pattern(number), 8).times(1, 5000, 1000).step();
    };
  }

  private static void assertCountersMoveOn(Status before, Status now, int slots) {
    assertThat(now.acked()).isBetween(before.acked(), now.finished());
    assertThat(now.finished()).isBetween(before.finished(), now.next());
    assertThat(now.next()).isBetween(before.next(), now.acked() + slots);
  }

  @Property(tries = 20)
  void aResultStaysTheSameUntilItIsAcknowledged(@ForAll long seed) {
    RawHost host =
        RawHost.armed(
            new ScriptedCircuit()
                .flip(0, 3, 4, 9)
                .bench(8, 2, SimSettings.of(seed, "01").withSlots(4)));
    List<Result> results = new ArrayList<>();
    for (int number = 0; number < 4; number++) {
      results.add(host.run(Steps.number(number).drive(number, 8).times(1, 5000, 1000).step()));
    }
    Random random = new Random(seed);
    for (int i = 0; i < 20; i++) {
      Result kept = results.get(random.nextInt(4));
      Result again = host.ask(new Read(kept.number()), Result.class);
      // NEXT is that of the moment; all else is as it was
      assertThat(again.next()).isEqualTo(4);
      assertThat(again).usingRecursiveComparison().ignoringFields("next").isEqualTo(kept);
    }
    host.ask(new Beat(2), Status.class);
    assertThat(host.ask(new Read(1), Status.class).acked()).isEqualTo(2);
    assertThat(host.ask(new Read(2), Result.class).number()).isEqualTo(2);
  }
}
