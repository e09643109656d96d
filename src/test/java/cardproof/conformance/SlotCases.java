package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

/** Sections 2, 3 and 5: step numbers, slots, BEAT, READ, and exactly once. */
final class SlotCases {
  private SlotCases() {}

  private static Step brief(long number) {
    return Step.of(number, number % 2 == 0 ? 0 : 1).times(0, 12_000, 2000);
  }

  static Section section() {
    return new Section("3 slots, exactly once")
        .add("as many steps as slots are queued, and no more", SlotCases::fill)
        .add("results that were not acknowledged keep their slots", SlotCases::unacknowledged)
        .add(
            "a step number too high is out of order",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(brief(0));
              Nack nack = bench.nack(bench.frame(brief(2)));
              assertThat(nack.reason()).isEqualTo(Nack.OUT_OF_ORDER);
              assertThat(nack.next()).isEqualTo(1);
              assertThat(bench.nack(bench.frame(brief(0xFFFFFFFFL))).reason())
                  .isEqualTo(Nack.OUT_OF_ORDER);
              assertThat(bench.now().next()).isEqualTo(1);
            })
        .add(
            "a repeat of a finished step is answered with STATUS",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(brief(0));
              Status status = bench.status(bench.frame(brief(0)));
              assertThat(status.next()).isEqualTo(1);
              bench.idle(40_000);
              assertThat(bench.came(Type.RESULT)).hasSize(1);
            })
        .add(
            "a repeat of a queued step is answered with STATUS",
            bench -> {
              bench.open(Open.USUAL);
              bench.give(brief(0));
              Status status = bench.status(bench.frame(brief(0)));
              assertThat(status.next()).isEqualTo(1);
              bench.arm();
              bench.result(brief(0));
              bench.idle(40_000);
              assertThat(bench.came(Type.RESULT)).hasSize(1);
            })
        .add(
            "a repeat of an acknowledged step is answered with STATUS",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(brief(0));
              bench.beat(1);
              assertThat(bench.status(bench.frame(brief(0))).next()).isEqualTo(1);
            })
        .add(
            "a repeat with other content changes nothing",
            bench -> {
              bench.open(Open.USUAL);
              bench.give(Step.of(0, 0));
              bench.status(bench.frame(Step.of(0, 1)));
              bench.arm();
              bench.result(Step.of(0));
              assertThat(bench.now().drives()).isEqualTo(Sets.of(0));
            })
        .add("every step of a long row runs once, repeats or not", SlotCases::longRow)
        .add(
            "a step that is taken gets no answer but its result",
            bench -> {
              bench.live(Open.USUAL);
              bench.idle(1000);
              bench.give(brief(0));
              bench.result(brief(0));
              List<Frame> more = bench.silence(40_000);
              assertThat(more).isEmpty();
              assertThat(bench.came(Type.STATUS)).as("of OPEN and ARM").hasSize(2);
            })
        .add("BEAT empties the slots below its number", SlotCases::acknowledge)
        .add(
            "BEAT above finished is refused",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(brief(0));
              Nack nack =
                  bench.nack(new Frame(Type.BEAT, bench.session(), new Bytes().u32(2).done()));
              assertThat(nack.reason()).isEqualTo(Nack.BAD_FIELD);
              assertThat(nack.detail()).isZero();
              assertThat(bench.now().acked()).isZero();
            })
        .add(
            "BEAT below acked changes nothing",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(brief(0));
              bench.run(brief(1));
              assertThat(bench.beat(2).acked()).isEqualTo(2);
              assertThat(bench.beat(1).acked()).isEqualTo(2);
              assertThat(bench.beat(0).acked()).isEqualTo(2);
            })
        .add(
            "BEAT in the middle of a step acknowledges those before",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(brief(0));
              Step slow = Step.of(1, 1).flags(Step.AUDIT).times(0, 50_000, 1000);
              bench.give(slow);
              bench.idle(10_000);
              Status status = bench.beat(1);
              assertThat(status.state()).isEqualTo(Status.RUN);
              assertThat(status.acked()).isEqualTo(1);
              assertThat(bench.result(slow).durationUs()).isGreaterThanOrEqualTo(50_000);
            })
        .add("READ sends the same result again", SlotCases::readAgain)
        .add(
            "READ of a step that is not finished, or not there, is answered with STATUS",
            bench -> {
              bench.live(Open.USUAL);
              Frame one = new Frame(Type.READ, bench.session(), new Bytes().u32(0).done());
              assertThat(bench.status(one).next()).isZero();
              Step slow = Step.of(0, 1).flags(Step.AUDIT).times(0, 50_000, 1000);
              bench.give(slow);
              bench.idle(10_000);
              assertThat(bench.status(one).state()).isEqualTo(Status.RUN);
              bench.result(slow);
            })
        .add(
            "READ of an acknowledged step is answered with STATUS",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(brief(0));
              bench.beat(1);
              Status status =
                  bench.status(new Frame(Type.READ, bench.session(), new Bytes().u32(0).done()));
              assertThat(status.acked()).isEqualTo(1);
            })
        .add(
            "results can be read after STOP",
            bench -> {
              bench.live(Open.USUAL);
              Result first = bench.run(Step.of(0, 0));
              bench.stop();
              assertThat(bench.read(0)).isEqualTo(first);
            })
        .add("the slot of a result is the next one's after its turn", SlotCases::reuse);
  }

  private static void fill(Bench bench) {
    int slots = bench.shape().slots();
    bench.open(Open.USUAL);
    for (int i = 0; i < slots; i++) {
      bench.give(brief(i));
    }
    bench.idle(20_000);
    Status status = bench.now();
    assertThat(status.next()).isEqualTo(slots);
    assertThat(status.finished()).isZero();
    Nack nack = bench.nack(bench.frame(brief(slots)));
    assertThat(nack.reason()).isEqualTo(Nack.NO_SLOT);
    assertThat(nack.next()).isEqualTo(slots);
    assertThat(nack.detail()).isZero();
    bench.arm();
    long endUs = 0;
    for (int i = 0; i < slots; i++) {
      Result result = bench.result(brief(i));
      assertThat(result.startUs()).isGreaterThanOrEqualTo(endUs);
      endUs = result.endUs();
    }
  }

  private static void unacknowledged(Bench bench) {
    int slots = bench.shape().slots();
    bench.live(Open.USUAL);
    for (int i = 0; i < slots; i++) {
      bench.run(brief(i));
    }
    assertThat(bench.nack(bench.frame(brief(slots))).reason()).isEqualTo(Nack.NO_SLOT);
    bench.beat(1);
    assertThat(bench.run(brief(slots)).step()).isEqualTo(slots);
    assertThat(bench.nack(bench.frame(brief(slots + 1))).reason()).isEqualTo(Nack.NO_SLOT);
  }

  private static void longRow(Bench bench) {
    bench.live(Open.USUAL);
    int row = 2 * bench.shape().slots() + 3;
    for (int i = 0; i < row; i++) {
      Step step = brief(i);
      bench.give(step);
      bench.give(step);
      bench.result(step);
      bench.give(step);
      bench.beat(i + 1L);
    }
    Status status = bench.now();
    assertThat(status.next()).isEqualTo(row);
    assertThat(status.finished()).isEqualTo(row);
    assertThat(bench.came(Type.RESULT)).hasSize(row);
    if (bench.peer().offers().contains(Peer.Offer.TRUE_DRIVES)) {
      long rises = 0;
      boolean on = false;
      for (Peer.Switch each : bench.peer().switches()) {
        rises += each.drives().get(0) && !on ? 1 : 0;
        on = each.drives().get(0);
      }
      assertThat(rises).as("times that drive 0 went on").isEqualTo((row + 1) / 2);
    }
  }

  private static void acknowledge(Bench bench) {
    bench.live(Open.USUAL);
    bench.run(brief(0));
    bench.run(brief(1));
    Status one = bench.beat(1);
    assertThat(one.acked()).isEqualTo(1);
    assertThat(one.finished()).isEqualTo(2);
    assertThat(bench.read(1).step()).isEqualTo(1);
    Status two = bench.beat(2);
    assertThat(two.acked()).isEqualTo(2);
    assertThat(two.drives()).as("drives stay").isEqualTo(Sets.of(1));
  }

  private static void readAgain(Bench bench) {
    bench.live(Open.USUAL);
    Result first = bench.run(Step.of(0, 0).expecting(0, true));
    Result second = bench.run(Step.of(1, 1).expecting(1, true));
    assertThat(bench.read(0)).isEqualTo(withNext(first, 2));
    assertThat(bench.read(1)).isEqualTo(second);
    assertThat(bench.read(0)).isEqualTo(withNext(first, 2));
  }

  private static Result withNext(Result of, long next) {
    return new Result(
        of.step(),
        next,
        of.flags(),
        of.startUs(),
        of.durationUs(),
        of.skewUs(),
        of.gapUs(),
        of.blindUs(),
        of.before(),
        of.last(),
        of.dwell(),
        of.unstable(),
        of.glitched(),
        of.stirred(),
        of.moved(),
        of.firstIndex(),
        of.entries(),
        of.sense());
  }

  private static void reuse(Bench bench) {
    int slots = bench.shape().slots();
    bench.live(Open.USUAL);
    for (int i = 0; i < slots; i++) {
      bench.run(brief(i));
      bench.beat(i + 1L);
    }
    Result again = bench.run(brief(slots));
    assertThat(bench.read(slots)).isEqualTo(again);
    Status status = bench.status(new Frame(Type.READ, bench.session(), new Bytes().u32(0).done()));
    assertThat(status.next()).isEqualTo(slots + 1L);
  }
}
