package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.link.BadFrameException;
import cardproof.link.Beat;
import cardproof.link.FrameParser;
import cardproof.link.MessageCodec;
import cardproof.log.BenchLog;
import cardproof.log.RunFilter;
import cardproof.log.SweepRecord;
import cardproof.log.UnitId;
import cardproof.plan.Generators;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import cardproof.run.BenchRun.Outcome;
import cardproof.sim.FrameTrace;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntConsumer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** First safe, then acknowledged, then told. */
class RunnerOrderTest {
  @TempDir private Path folder;

  private static Card card() {
    return TestCards.card().input("A", 8).output("S", 8, "A").build();
  }

  private static Plan plan() {
    return PlanSketch.of(card()).step(s -> s.each("A", Generators.random(8, 60, 3))).plan();
  }

  /** Sees each step acknowledged for the first time, on the line itself. */
  private static final class Acknowledgements implements FrameTrace {
    private final MessageCodec codec = new MessageCodec(8, 8);
    private final FrameParser parser = new FrameParser(this::payload);
    private final IntConsumer onNews;
    private int below;

    Acknowledgements(IntConsumer onNews) {
      this.onNews = onNews;
    }

    @Override
    public void onLine(long nowNs, boolean toFixture, byte[] bytes) {
      if (toFixture) {
        parser.feed(bytes, 0, bytes.length);
      }
    }

    private void payload(byte[] bytes, int offset, int length) {
      try {
        if (codec.decode(bytes, offset, length).message() instanceof Beat beat
            && beat.ack() > below) {
          below = beat.ack();
          onNews.accept(below);
        }
      } catch (BadFrameException e) {
        throw new AssertionError("the host sent what cannot be read", e);
      }
    }
  }

  private static long safe(Path file) {
    try (BenchLog other = BenchLog.openForReading(file)) {
      long run = other.runs(RunFilter.of(UnitId.simulated("test", "01"))).get(0).id();
      long[] count = new long[1];
      other.forEachVector(run, record -> count[0]++);
      return count[0];
    }
  }

  @Test
  void whatIsAcknowledgedStandsInTheLogForEveryoneToRead() {
    BenchRun run = BenchRun.of(plan(), folder);
    List<Integer> news = new ArrayList<>();
    run.bench()
        .trace(
            new Acknowledgements(
                below -> {
                  news.add(below);
                  assertThat(safe(run.file())).isGreaterThanOrEqualTo(below);
                }));
    Outcome outcome = run.go();
    assertThat(outcome.ending()).isEqualTo(RunEnding.finished());
    assertThat(news).hasSizeGreaterThan(10).endsWith(60);
  }

  @Test
  void whoIsToldOfAVectorFindsItAcknowledgedAlready() {
    BenchRun run = BenchRun.of(plan(), folder);
    Acknowledgements acknowledged = new Acknowledgements(below -> {});
    run.bench().trace(acknowledged);
    List<Long> told = new ArrayList<>();
    run.listener(
        new RunListener() {
          @Override
          public void judged(Judged judged) {
            told.add(judged.vector().number());
            assertThat((long) acknowledged.below).isGreaterThan(judged.vector().number());
          }

          @Override
          public void superseded(Judged judged) {
            throw new AssertionError("nothing moved later");
          }
        });
    run.go();
    assertThat(told).hasSize(60).isSorted();
  }

  @Test
  void commitComesBetweenTheRecordAndTheAcknowledgement() {
    List<String> calls = new ArrayList<>();
    BenchRun run = BenchRun.of(plan(), folder);
    run.bench().trace(new Acknowledgements(below -> calls.add("ack " + below)));
    run.records(
        (log, bench) ->
            new Records() {
              @Override
              public void append(Judged judged) {
                calls.add("append " + judged.vector().number());
                log.append(judged);
              }

              @Override
              public void supersedeLast(Judgement judgement) {
                log.supersedeLast(judgement);
              }

              @Override
              public void sweep(SweepRecord sweep) {
                log.sweep(sweep);
              }

              @Override
              public void commit() {
                log.commit();
                calls.add("commit");
              }
            });
    run.go();
    long appended = 0;
    long committed = 0;
    for (String call : calls) {
      if (call.startsWith("append")) {
        appended++;
      } else if (call.equals("commit")) {
        committed = appended;
      } else {
        assertThat(Long.parseLong(call.substring(4))).isEqualTo(committed);
      }
    }
    assertThat(committed).isEqualTo(60);
  }
}
