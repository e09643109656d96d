package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Section 9.1: timed sequences. */
final class SequenceCases {
  private SequenceCases() {}

  private static Case.Body with(Case.Body body) {
    return bench -> {
      Case.needs(bench, Capability.SEQUENCES);
      body.run(bench);
    };
  }

  /** The same, with a session that is ready. */
  private static Case.Body live(Case.Body body) {
    return with(
        bench -> {
          bench.live(Open.USUAL);
          body.run(bench);
        });
  }

  /** Drive 0 first; watched to the end of this time, whatever comes. */
  private static Step watched(long watchUs) {
    return Step.of(0, 0).flags(Step.AUDIT).times(0, watchUs, 4000);
  }

  private static Step three() {
    return Step.of(0, 0).times(0, 60_000, 4000).then(10_000, 0, 1).then(20_000, 2);
  }

  static Section section() {
    return new Section("9.1 sequences")
        .add("entries are switched at their times", with(SequenceCases::times))
        .add(
            "a sequence has one result like any step",
            new CardScript().follow(0, 0, 3000).follow(1, 1, 5000),
            live(
                bench -> {
                  Result result =
                      bench.run(
                          Step.of(0, 0)
                              .times(0, 60_000, 4000)
                              .expecting(1, true)
                              .then(10_000, 0, 1));
                  StepRunCases.flags(result, Result.QUIET, Result.MATCHED, Result.EARLY);
                  Near near = Near.of(bench, result);
                  near.holds("0", result.entry(0).firstUs(), 3000);
                  near.holds("1", result.entry(1).firstUs(), 15_000);
                  near.holds("duration", result.durationUs(), 19_000);
                  Status status = bench.now();
                  assertThat(status.finished()).isEqualTo(1);
                  assertThat(status.drives()).isEqualTo(Sets.of(0, 1));
                  assertThat(bench.came(Type.RESULT)).hasSize(1);
                  assertThat(bench.read(0)).isEqualTo(result);
                }))
        .add(
            "it never ends before its last entry, and quiet counts from there",
            live(
                bench -> {
                  Result result = bench.run(Step.of(0).times(0, 60_000, 4000).then(25_000, 2));
                  StepRunCases.flags(result, Result.QUIET, Result.MATCHED, Result.EARLY);
                  Near.of(bench, result).holds("duration", result.durationUs(), 29_000);
                }))
        .add(
            "an entry in the last quiet window makes it not quiet",
            live(
                bench -> {
                  Result result =
                      bench.run(
                          Step.of(0).flags(Step.AUDIT).times(0, 20_000, 4000).then(18_000, 2));
                  StepRunCases.flags(result, Result.MATCHED);
                }))
        .add(
            "the gap counts from entries as well",
            new CardScript().follow(0, 0, 3000).follow(1, 1, 5000),
            live(
                bench -> {
                  Result result = bench.run(watched(40_000).then(12_000, 0, 1));
                  Near.of(bench, result).apart("gap", result.gapUs(), 5000);
                }))
        .add(
            "the gap counts from whatever came last, entry or change",
            new CardScript().follow(0, 0, 3000).follow(1, 0, 25_000),
            live(
                bench -> {
                  Result result = bench.run(watched(40_000).then(10_000, 0, 2));
                  Near.of(bench, result).apart("gap", result.gapUs(), 15_000);
                }))
        .add(
            "an entry that nothing follows leaves no gap behind it",
            new CardScript().follow(0, 0, 3000),
            live(
                bench -> {
                  Result result = bench.run(watched(40_000).then(9000, 0, 2));
                  assertThat(result.gapUs()).isEqualTo(result.entry(0).firstUs());
                }))
        .add(
            "chatter is counted anew from each entry, the result's moves are not",
            new CardScript().oscillate(2, 3000, 0),
            with(
                bench -> {
                  bench.live(Open.USUAL.chatter(5, 60000, 1000));
                  Result result = bench.run(watched(26_000).then(13_000, 0, 1));
                  assertThat(result.has(Result.TRIPPED)).isFalse();
                  assertThat(result.entry(2).moves()).isEqualTo(8);
                }))
        .add(
            "chatter within one entry trips, and later entries are never switched",
            new CardScript().oscillate(2, 3000, 1),
            with(
                bench -> {
                  bench.live(Open.USUAL.chatter(4, 60000, 1000));
                  bench.give(
                      Step.of(0, 0).times(0, 60_000, 4000).then(5000, 0, 1).then(40_000, 0, 1, 2));
                  Result result = bench.result(0, 200_000);
                  assertThat(result.has(Result.TRIPPED)).isTrue();
                  Near.of(bench, result).holds("duration", result.durationUs(), 17_000);
                  bench.pass(60_000);
                  assertThat(bench.now().state()).isEqualTo(Status.TRIPPED);
                  assertThat(bench.now().drives()).isEqualTo(Sets.of());
                }))
        .add(
            "the hold time counts from the entry",
            with(
                bench -> {
                  bench.live(Open.USUAL.hold(50));
                  Result result = bench.run(watched(70_000).then(30_000, 1));
                  assertThat(result.has(Result.TRIPPED)).isFalse();
                  Status status =
                      bench.awaitStatus(
                          60_000, each -> each.state() == Status.TRIPPED, "STATUS of a trip");
                  assertThat(status.cause()).isEqualTo(Status.BY_HOLD);
                  assertThat(status.nowUs() - result.startUs()).isBetween(79_900L, 85_000L);
                }))
        .add(
            "STOP leaves the rest of a sequence out",
            live(
                bench -> {
                  bench.give(
                      Step.of(0, 0).times(0, 400_000, 4000).then(20_000, 1).then(200_000, 2));
                  bench.idle(60_000);
                  Status status = bench.stop();
                  assertThat(status.drives()).isEqualTo(Sets.of());
                  assertThat(bench.result(0, Bench.ANSWER_US).has(Result.STOPPED)).isTrue();
                  bench.idle(300_000);
                  assertThat(bench.now().drives()).isEqualTo(Sets.of());
                }))
        .add(
            "frames are answered while a sequence waits for its next entry",
            live(
                bench -> {
                  bench.give(Step.of(0, 0).times(0, 400_000, 4000).then(300_000, 1));
                  for (int i = 0; i < 3; i++) {
                    bench.idle(20_000);
                    assertThat(bench.now().state()).isEqualTo(Status.RUN);
                    assertThat(bench.hello(1).session()).isEqualTo(bench.session());
                  }
                }))
        .add(
            "silence drops the drives in a sequence",
            with(
                bench -> {
                  bench.live(Open.USUAL.silence(100));
                  bench.give(Step.of(0, 0).times(0, 500_000, 4000).then(400_000, 0, 1));
                  bench.idle(300_000);
                  Status status = bench.now();
                  assertThat(status.state()).isEqualTo(Status.SAFE);
                  assertThat(status.cause()).isEqualTo(Status.BY_SILENCE);
                  Result result = bench.result(0, Bench.ANSWER_US);
                  assertThat(result.has(Result.STOPPED)).isTrue();
                  assertThat(result.durationUs()).isBetween(50_000L, 120_000L);
                }))
        .add(
            "BEAT keeps a long sequence alive",
            with(
                bench -> {
                  bench.live(Open.USUAL.silence(100));
                  Step step = Step.of(0, 0).times(0, 400_000, 4000).then(300_000, 1);
                  bench.give(step);
                  Result result = bench.result(step);
                  assertThat(result.has(Result.STOPPED)).isFalse();
                  assertThat(result.has(Result.EARLY)).isTrue();
                }))
        .add(
            "a gated sequence that misses holds",
            live(
                bench -> {
                  Result result =
                      bench.run(
                          Step.of(0, 0)
                              .flags(Step.GATE)
                              .times(0, 20_000, 4000)
                              .expecting(2, true)
                              .then(5000, 1));
                  assertThat(result.has(Result.MISSED)).isTrue();
                  Status status = bench.now();
                  assertThat(status.state()).isEqualTo(Status.HELD);
                  assertThat(status.drives()).isEqualTo(Sets.of(1));
                }))
        .add(
            "dwell counts from the start of the step",
            new CardScript().follow(0, 0, 3000).follow(1, 1, 5000),
            live(
                bench -> {
                  Result result =
                      bench.run(
                          Step.of(0, 0)
                              .flags(Step.DWELL)
                              .times(0, 30_000, 4000)
                              .dwellAt(13_000)
                              .then(10_000, 0, 1));
                  assertThat(result.dwell()).isEqualTo(Sets.of(0));
                  assertThat(result.last()).isEqualTo(Sets.of(0, 1));
                }))
        .add(
            "the most entries that HELLO_R names are taken",
            new CardScript(),
            with(SequenceCases::most))
        .add("no entries are refused", with(bench -> count(bench, Step.of(0), 0)))
        .add("more entries than HELLO_R names are refused", with(SequenceCases::tooMany))
        .add(
            "a number of entries that the length denies is refused",
            live(
                bench -> {
                  Frame frame = three().sequenceOf(1, bench.session(), bench.shape());
                  assertThat(bench.nack(frame).reason()).isEqualTo(Nack.BAD_LENGTH);
                }))
        .add(
            "a first entry at 0 is refused",
            with(bench -> entry(bench, Step.of(0).then(0, 1).then(5000, 1), 0)))
        .add(
            "entries that do not rise are refused",
            with(bench -> entry(bench, Step.of(0).then(5000, 1).then(5000, 2), 1)))
        .add(
            "an entry at watch is refused",
            with(bench -> entry(bench, Step.of(0).then(5000, 1).then(40_000, 2), 1)))
        .add(
            "a drive outside the allowed set is refused in an entry, before anything moves",
            with(
                bench -> {
                  bench.live(Open.USUAL.allow(0));
                  HelloR shape = bench.shape();
                  Frame frame =
                      Step.of(0, 0).enabled(0).then(9000, 1).frame(bench.session(), shape);
                  assertThat(bench.nack(frame).reason()).isEqualTo(Nack.DRIVE_OUTSIDE);
                  assertThat(bench.now().next()).isZero();
                }))
        .add("a sequence is alone: behind a step that is queued", with(SequenceCases::behind))
        .add(
            "a sequence is alone: no step behind it",
            with(
                bench -> {
                  bench.open(Open.USUAL);
                  bench.give(three());
                  assertThat(bench.nack(bench.frame(Step.of(1))).reason()).isEqualTo(Nack.NO_SLOT);
                  bench.arm();
                  bench.idle(5000);
                  assertThat(bench.nack(bench.frame(Step.of(1))).reason()).isEqualTo(Nack.NO_SLOT);
                  assertThat(bench.now().next()).isEqualTo(1);
                  bench.result(three());
                  assertThat(bench.run(Step.of(1)).step()).isEqualTo(1);
                }))
        .add(
            "a repeat of a sequence is answered with STATUS",
            live(
                bench -> {
                  bench.give(three());
                  bench.idle(5000);
                  Status status = bench.status(bench.frame(three()));
                  assertThat(status.state()).isEqualTo(Status.RUN);
                  assertThat(status.next()).isEqualTo(1);
                  bench.result(three());
                  assertThat(bench.status(bench.frame(three())).finished()).isEqualTo(1);
                  assertThat(bench.came(Type.RESULT)).hasSize(1);
                }))
        .add(
            "one sequence after another, none acknowledged",
            live(
                bench -> {
                  bench.run(three());
                  Step second =
                      Step.of(1, 1).times(0, 60_000, 4000).then(10_000, 2).then(20_000, 0);
                  assertThat(bench.run(second).step()).isEqualTo(1);
                  assertThat(bench.now().drives()).isEqualTo(Sets.of(0));
                }))
        .add(
            "no entry is switched a millisecond late",
            live(
                bench -> {
                  Result result = bench.run(three());
                  assertThat(result.skewUs()).isLessThan(1000);
                }));
  }

  private static void times(Bench bench) {
    Case.needs(bench, Peer.Offer.TRUE_DRIVES);
    bench.live(Open.USUAL);
    Result result = bench.run(three());
    List<Peer.Switch> settled = new ArrayList<>();
    for (Peer.Switch each : bench.peer().switches()) {
      int last = settled.size() - 1;
      if (last >= 0 && each.atNs() - settled.get(last).atNs() < 500_000) {
        settled.set(last, new Peer.Switch(settled.get(last).atNs(), each.drives()));
      } else {
        settled.add(each);
      }
    }
    BitSet started = Sets.of(0);
    settled.removeIf(each -> each.drives().isEmpty());
    assertThat(settled)
        .extracting(Peer.Switch::drives)
        .containsExactly(started, Sets.of(0, 1), Sets.of(2));
    long startNs = settled.get(0).atNs();
    for (int i = 1; i <= 2; i++) {
      long atUs = (settled.get(i).atNs() - startNs) / 1000;
      assertThat(atUs)
          .as("neither earlier nor later than the skew says")
          .isBetween(i * 10_000L - 8, i * 10_000L + result.skewUs() + 8);
    }
  }

  private static int entriesThatFit(Bench bench) {
    HelloR shape = bench.shape();
    int head = 9 + 22 + 2 * shape.d() + 3 * shape.w();
    return Math.min(shape.mostEntries(), (shape.longestFrame() - head) / (4 + 2 * shape.d()));
  }

  private static Step row(int entries) {
    Step step = Step.of(0, 0).times(0, 1000L * (entries + 10), 4000);
    for (int i = 1; i <= entries; i++) {
      step = step.then(1000L * i, i % 2);
    }
    return step;
  }

  private static void most(Bench bench) {
    bench.live(Open.USUAL);
    int most = entriesThatFit(bench);
    Result result = bench.run(row(most));
    Near.of(bench, result).holds("duration", result.durationUs(), 1000L * most + 4000);
  }

  private static void tooMany(Bench bench) {
    int most = bench.shape().mostEntries();
    Case.needs(entriesThatFit(bench) == most && entriesThatFit(bench) < 255, "room for one more");
    Frame frame = row(most + 1).frame(bench.session(), bench.shape());
    Case.needs(frame.plain().length <= bench.shape().longestFrame(), "frame that is long enough");
    bench.live(Open.USUAL);
    Nack nack = bench.nack(bench.frame(row(most + 1)));
    assertThat(nack.reason()).isEqualTo(Nack.BAD_FIELD);
    assertThat(nack.detail()).isEqualTo(countOffset(bench));
  }

  private static int countOffset(Bench bench) {
    return 21 + 2 * bench.shape().d() + 3 * bench.shape().w();
  }

  private static void count(Bench bench, Step step, int said) {
    bench.live(Open.USUAL);
    Nack nack = bench.nack(step.sequenceOf(said, bench.session(), bench.shape()));
    assertThat(nack.reason()).isEqualTo(Nack.BAD_FIELD);
    assertThat(nack.detail()).isEqualTo(countOffset(bench));
    assertThat(bench.now().next()).isZero();
  }

  private static void entry(Bench bench, Step step, int index) {
    bench.live(Open.USUAL);
    Nack nack = bench.nack(bench.frame(step));
    assertThat(nack.reason()).isEqualTo(Nack.BAD_FIELD);
    int size = 4 + 2 * bench.shape().d();
    assertThat(nack.detail()).isEqualTo(countOffset(bench) + 1 + index * size);
    assertThat(bench.now().next()).isZero();
  }

  private static void behind(Bench bench) {
    bench.open(Open.USUAL);
    bench.give(watched(60_000));
    Frame second = bench.frame(Step.of(1, 1).then(5000, 2));
    assertThat(bench.nack(second).reason()).isEqualTo(Nack.NO_SLOT);
    bench.arm();
    bench.idle(10_000);
    assertThat(bench.now().state()).isEqualTo(Status.RUN);
    assertThat(bench.nack(second).reason()).isEqualTo(Nack.NO_SLOT);
    bench.result(0, 200_000);
    bench.send(second);
    assertThat(bench.result(1, 200_000).step()).isEqualTo(1);
  }
}
