package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;

/** Section 6: start, watching, gap, end, rest. */
final class StepRunCases {
  private StepRunCases() {}

  static Section section() {
    return new Section("6 how a step runs")
        .add(
            "a step ends when it is matched and quiet",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).expecting(0, true));
              flags(result, Result.QUIET, Result.MATCHED, Result.EARLY);
              Near.of(bench, result).holds("duration", result.durationUs(), 9000);
              Near.of(bench, result).holds("change", result.entry(0).firstUs(), 5000);
              assertThat(result.last()).isEqualTo(Sets.of(0));
            })
        .add(
            "a step where nothing moves ends after the quiet window",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0));
              flags(result, Result.QUIET, Result.MATCHED, Result.EARLY);
              Near.of(bench, result).holds("duration", result.durationUs(), 4000);
              assertThat(result.moved()).isZero();
              assertThat(result.gapUs()).isZero();
            })
        .add(
            "a quiet step that is not matched goes on until it is",
            new CardScript().follow(0, 0, 15_000),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).times(0, 40_000, 3000).expecting(0, true));
              flags(result, Result.QUIET, Result.MATCHED, Result.EARLY);
              Near.of(bench, result).holds("duration", result.durationUs(), 18_000);
            })
        .add(
            "a step that is never matched ends at watch",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).times(0, 20_000, 3000).expecting(2, true));
              flags(result, Result.QUIET);
              Near.of(bench, result).holds("duration", result.durationUs(), 20_000);
            })
        .add(
            "a change in the last quiet window makes it not quiet",
            new CardScript().follow(0, 0, 18_000),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).times(0, 20_000, 4000).expecting(0, true));
              flags(result, Result.MATCHED);
              Near.of(bench, result).holds("duration", result.durationUs(), 20_000);
            })
        .add(
            "a line that never rests keeps it from ending early",
            new CardScript().oscillate(2, 2500, 0),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).times(0, 21_000, 4000));
              flags(result, Result.MATCHED);
              Near.of(bench, result).holds("duration", result.durationUs(), 21_000);
              assertThat(result.entry(2).changes()).isEqualTo(8);
            })
        .add(
            "an audit step goes on to watch",
            bench -> {
              bench.live(Open.USUAL);
              Result result =
                  bench.run(
                      Step.of(0, 0).flags(Step.AUDIT).times(0, 25_000, 4000).expecting(0, true));
              flags(result, Result.QUIET, Result.MATCHED);
              Near.of(bench, result).holds("duration", result.durationUs(), 25_000);
            })
        .add(
            "an audit step sees what comes after the quiet window",
            new CardScript().follow(0, 0, 3000).follow(1, 0, 20_000),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).flags(Step.AUDIT).times(0, 30_000, 4000));
              Near.of(bench, result).holds("late change", result.entry(1).firstUs(), 20_000);
            })
        .add(
            "bounces are changes of one move",
            new CardScript().bounce(0, 0, 5000, 3, 700),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).expecting(0, true));
              Result.Entry entry = result.entry(0);
              assertThat(entry.changes()).isEqualTo(7);
              assertThat(entry.moves()).isEqualTo(1);
              Near.of(bench, result).holds("first", entry.firstUs(), 5000);
              Near.of(bench, result).holds("last", entry.lastUs(), 9200);
              Near.of(bench, result).holds("duration", result.durationUs(), 13_200);
            })
        .add(
            "a change after rest is a move",
            new CardScript().oscillate(2, 3000, 0),
            bench -> {
              bench.live(Open.USUAL.chatter(200, 60000, 2500));
              Result result = bench.run(Step.of(0, 0).times(0, 20_000, 4000));
              assertThat(result.entry(2).changes()).isEqualTo(6);
              assertThat(result.entry(2).moves()).isEqualTo(6);
            })
        .add(
            "a change before the rest is over is none",
            new CardScript().oscillate(2, 3000, 0),
            bench -> {
              bench.live(Open.USUAL.chatter(200, 60000, 3500));
              Result result = bench.run(Step.of(0, 0).times(0, 20_000, 4000));
              assertThat(result.entry(2).changes()).isEqualTo(6);
              assertThat(result.entry(2).moves()).isEqualTo(1);
            })
        .add(
            "with no rest at all every change is a move",
            new CardScript().bounce(0, 0, 5000, 2, 1000),
            bench -> {
              bench.live(Open.USUAL.chatter(200, 60000, 0));
              Result result = bench.run(Step.of(0, 0).flags(Step.AUDIT).times(0, 20_000, 4000));
              assertThat(result.entry(0).changes()).isEqualTo(5);
              assertThat(result.entry(0).moves()).isEqualTo(5);
            })
        .add(
            "before is what was there before the drives switched",
            new CardScript().follow(0, 0, 5000).one(2).invert(1, 0, 5000),
            bench -> {
              bench.live(Open.USUAL);
              Result first = bench.run(Step.of(0, 0).expecting(0, true));
              assertThat(first.before()).isEqualTo(Sets.of(1, 2));
              assertThat(first.last()).isEqualTo(Sets.of(0, 2));
              Result second = bench.run(Step.of(1).expecting(0, false));
              assertThat(second.before()).isEqualTo(Sets.of(0, 2));
              assertThat(second.last()).isEqualTo(Sets.of(1, 2));
            })
        .add(
            "entries are in rising order of watch number",
            new CardScript().follow(0, 0, 9000).follow(1, 0, 7000).follow(2, 0, 5000),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).expecting(0, true));
              assertThat(result.entries()).extracting(Result.Entry::watch).containsExactly(0, 1, 2);
              assertThat(result.entries())
                  .extracting(Result.Entry::changes)
                  .containsExactly(1, 1, 1);
              Near near = Near.of(bench, result);
              near.holds("0", result.entry(0).lastUs(), 9000);
              near.holds("1", result.entry(1).lastUs(), 7000);
              near.holds("2", result.entry(2).lastUs(), 5000);
            })
        .add(
            "the gap before the only change counts from start",
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).flags(Step.AUDIT).times(0, 30_000, 4000));
              assertThat(result.gapUs()).isEqualTo(result.entry(0).firstUs());
            })
        .add(
            "the gap is the longest one, between changes of whatever line",
            new CardScript().follow(0, 0, 4000).follow(1, 0, 6000).follow(2, 0, 15_000),
            bench -> {
              bench.live(Open.USUAL);
              Result result = bench.run(Step.of(0, 0).flags(Step.AUDIT).times(0, 40_000, 4000));
              assertThat(result.gapUs())
                  .isEqualTo(result.entry(2).firstUs() - result.entry(1).firstUs());
              Near.of(bench, result).apart("gap", result.gapUs(), 9000);
            })
        .add("a line that is not watched is not reported", StepRunCases::unwatched)
        .add(
            "a drive that is not enabled is released, whatever its level",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0, 1).enabled(0));
              assertThat(bench.now().drives()).isEqualTo(Sets.of(0));
            })
        .add(
            "drives become what each step says",
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0, 1));
              assertThat(bench.now().drives()).isEqualTo(Sets.of(0, 1));
              bench.run(Step.of(1, 1, 2));
              assertThat(bench.now().drives()).isEqualTo(Sets.of(1, 2));
              bench.beat(2);
              bench.run(Step.of(2));
              assertThat(bench.now().drives()).isEqualTo(Sets.of());
            })
        .add("every drive can be switched, each alone", StepRunCases::eachDrive)
        .add("a step that is queued starts as soon as the one before ends", StepRunCases::atOnce)
        .add("no step's blind time is longer than HELLO_R says", StepRunCases::blind)
        .add(
            "what changes after a step has stirred",
            new CardScript().follow(0, 0, 12_000),
            bench -> {
              bench.live(Open.USUAL);
              Result first = bench.run(Step.of(0, 0).times(0, 20_000, 3000));
              assertThat(first.moved()).isZero();
              bench.pass(15_000);
              Status status = bench.now();
              assertThat(status.stirred()).isEqualTo(Sets.of(0));
              assertThat(status.watches()).isEqualTo(Sets.of(0));
              Result second = bench.run(Step.of(1, 0).times(0, 20_000, 3000));
              assertThat(second.stirred()).isEqualTo(Sets.of(0));
              assertThat(second.before()).isEqualTo(Sets.of(0));
              assertThat(second.moved()).isZero();
              assertThat(bench.now().stirred()).isEqualTo(Sets.of());
              bench.beat(2);
              assertThat(bench.run(Step.of(2, 0)).stirred()).isEqualTo(Sets.of());
            })
        .add(
            "STATUS in a step: its number, what is on and seen now, and what had stirred before it",
            new CardScript().follow(0, 0, 12_000).follow(1, 1, 5000),
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0).times(0, 20_000, 3000));
              bench.pass(15_000);
              bench.give(Step.of(1, 0, 1).flags(Step.AUDIT).times(0, 60_000, 3000));
              bench.idle(20_000);
              Status status = bench.now();
              assertThat(status.state()).isEqualTo(Status.RUN);
              assertThat(status.finished()).as("the step that runs").isEqualTo(1);
              assertThat(status.drives()).isEqualTo(Sets.of(0, 1));
              assertThat(status.watches()).isEqualTo(Sets.of(0, 1));
              assertThat(status.stirred()).as("before its start").isEqualTo(Sets.of(0));
              Result result = bench.result(1, 200_000);
              assertThat(result.stirred()).isEqualTo(Sets.of(0));
              assertThat(bench.now().stirred()).isEqualTo(Sets.of());
            })
        .add(
            "a change right after the next start belongs to the next step",
            new CardScript().follow(0, 0, 7000),
            bench -> {
              bench.open(Open.USUAL);
              bench.give(Step.of(0, 0).times(0, 20_000, 5000));
              bench.give(Step.of(1, 0).times(0, 20_000, 5000));
              bench.arm();
              Result first = bench.result(Step.of(0));
              Result second = bench.result(Step.of(1));
              assertThat(first.moved()).isZero();
              assertThat(second.stirred()).isEqualTo(Sets.of());
              long atUs = second.startUs() + second.entry(0).firstUs();
              Near.of(bench, second).holds("change", atUs - first.startUs(), 7000);
            })
        .add(
            "a drive that goes off is followed too",
            new CardScript().follow(0, 0, 5000, 9000),
            bench -> {
              bench.live(Open.USUAL);
              bench.run(Step.of(0, 0).expecting(0, true));
              Result off = bench.run(Step.of(1).expecting(0, false));
              Near.of(bench, off).holds("change", off.entry(0).firstUs(), 9000);
              flags(off, Result.QUIET, Result.MATCHED, Result.EARLY);
            })
        .add(
            "times are on one clock with now",
            bench -> {
              bench.live(Open.USUAL);
              Status before = bench.now();
              Result result = bench.run(Step.of(0, 0));
              Status after = bench.now();
              assertThat(result.startUs()).isBetween(before.nowUs(), after.nowUs());
              assertThat(result.endUs()).isLessThanOrEqualTo(after.nowUs());
            })
        .add("the fixture's clock keeps time", StepRunCases::clock)
        .add(
            "a result of all watches comes whole, in parts if need be",
            everyWatch(),
            bench -> {
              bench.live(Open.USUAL);
              all(bench);
            })
        .add(
            "a result in parts can be read again in the same parts",
            everyWatch(),
            bench -> {
              bench.live(Open.USUAL);
              List<Result> parts = all(bench);
              bench.send(Type.READ, new Bytes().u32(1).done());
              assertThat(bench.parts(1, Bench.ANSWER_US)).isEqualTo(parts);
            });
  }

  static void flags(Result result, int... bits) {
    int wanted = IntStream.of(bits).map(bit -> 1 << bit).sum();
    assertThat(Integer.toBinaryString(result.flags()))
        .as("flags of %s", result)
        .isEqualTo(Integer.toBinaryString(wanted));
  }

  private static void unwatched(Bench bench) {
    bench.live(Open.USUAL.watch(0));
    Result result = bench.run(Step.of(0, 0, 1).times(0, 40_000, 4000).expecting(0, true));
    assertThat(result.entries()).extracting(Result.Entry::watch).containsExactly(0);
    assertThat(result.moved()).isEqualTo(1);
    assertThat(result.gapUs()).isEqualTo(result.entry(0).firstUs());
    Near.of(bench, result).holds("duration", result.durationUs(), 9000);
    bench.pass(10_000);
    assertThat(bench.now().stirred()).isEqualTo(Sets.of());
  }

  private static void eachDrive(Bench bench) {
    bench.live(Open.USUAL);
    for (int drive = 0; drive < bench.shape().drives(); drive++) {
      bench.run(Step.of(drive, drive).times(0, 2000, 1000));
      assertThat(bench.beat(drive + 1L).drives()).isEqualTo(Sets.of(drive));
    }
    if (bench.peer().offers().contains(Peer.Offer.TRUE_DRIVES)) {
      assertThat(bench.peer().switches().stream().map(Peer.Switch::drives))
          .contains(Sets.of(0), Sets.of(bench.shape().drives() - 1));
    }
  }

  private static void atOnce(Bench bench) {
    bench.open(Open.USUAL);
    bench.give(Step.of(0, 0).times(0, 9000, 2000));
    bench.give(Step.of(1, 1).times(0, 9000, 2000));
    bench.arm();
    Result first = bench.result(Step.of(0));
    Result second = bench.result(Step.of(1));
    long betweenUs = second.startUs() - first.endUs();
    assertThat(betweenUs).isBetween(0L, 1000L + bench.shape().blindUs());
    assertThat(second.next()).isEqualTo(2);
  }

  private static void blind(Bench bench) {
    bench.live(Open.USUAL);
    for (int i = 0; i < 6; i++) {
      Result result = bench.run(Step.of(i, i % 2).times(0, 15_000, 4000));
      bench.beat(i + 1L);
      assertThat(result.blindUs()).isBetween(0, bench.shape().blindUs());
      assertThat(result.skewUs()).isLessThan(1000);
    }
  }

  private static void clock(Bench bench) {
    Case.needs(bench, Peer.Offer.EXACT_TIME);
    bench.live(Open.USUAL);
    long hostUs = bench.peer().nowNs() / 1000;
    Status before = bench.now();
    bench.pass(400_000);
    Status after = bench.now();
    long passedUs = bench.peer().nowNs() / 1000 - hostUs;
    assertThat(after.nowUs() - before.nowUs()).isBetween(399_000L, passedUs);
  }

  static Case.CardOf everyWatch() {
    return (drives, watches) -> {
      CardScript card = new CardScript();
      for (int watch = 0; watch < watches; watch++) {
        card.follow(watch, 0, 3000 + 300L * watch);
      }
      return card;
    };
  }

  private static List<Result> all(Bench bench) {
    int watches = bench.shape().watches();
    bench.run(Step.of(0));
    bench.give(
        Step.of(1, 0).times(0, 60_000, 4000).expecting(Sets.all(watches), Sets.all(watches)));
    List<Result> parts = bench.parts(1, 200_000);
    int entry = 0;
    for (Result part : parts) {
      assertThat(part.moved()).isEqualTo(watches);
      assertThat(part.startUs()).isEqualTo(parts.get(0).startUs());
      assertThat(part.flags()).isEqualTo(parts.get(0).flags());
      for (Result.Entry each : part.entries()) {
        assertThat(each.watch()).isEqualTo(entry);
        Near.of(bench, part).holds("watch " + entry, each.firstUs(), 3000 + 300L * entry);
        entry++;
      }
    }
    assertThat(entry).isEqualTo(watches);
    bench
        .came(Type.RESULT)
        .forEach(at -> assertThat(at.frame().plain().length).isLessThanOrEqualTo(512));
    return parts;
  }
}
