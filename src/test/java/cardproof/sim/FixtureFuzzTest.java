package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.link.Arm;
import cardproof.link.BadFrameException;
import cardproof.link.Beat;
import cardproof.link.Frame;
import cardproof.link.FrameParser;
import cardproof.link.HelloReply;
import cardproof.link.Message;
import cardproof.link.MessageCodec;
import cardproof.link.Open;
import cardproof.link.RawFrames;
import cardproof.link.Read;
import cardproof.link.Result;
import cardproof.link.Resume;
import cardproof.link.Status;
import cardproof.link.Stop;
import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;
import java.util.BitSet;

/**
 * The simulated fixture and a host that means no good: whatever comes, it goes on, says nothing but
 * good frames, keeps its counters in order, and drops its drives when the host falls silent.
 */
class FixtureFuzzTest {
  private static final int MOST_BYTES = 80;
  private static final int SLOTS = 3;
  private static final int LONGEST_REST_US = 2_000_000;

  /** The longest silence that OPEN may ask for, and a little. */
  private static final int SILENCE_US = 10_100_000;

  private static final int MOST_DEEDS = 100;

  @FuzzTest(maxDuration = "10m")
  void anyHost(FuzzedDataProvider script) {
    Card card = script.consumeBoolean() ? Cards.hold() : Cards.fedBack();
    Visit visit = new Visit(card);
    visit.send(0x01, 7, new byte[] {1, 0});
    for (int i = 0; i < MOST_DEEDS && script.remainingBytes() > 0; i++) {
      visit.deed(script);
    }
    visit.rest(SILENCE_US);
    assertThat(visit.on).isEqualTo(new BitSet());
  }

  private static final class Visit {
    private final SimulatedBench bench;
    private final MessageCodec codec;
    private final int drives;
    private final int watches;
    private final byte[] room = new byte[4096];
    private final FrameParser parser = new FrameParser(this::payload);
    private final BitSet on = new BitSet();
    private Status status;
    private int boot;
    private int session;

    Visit(Card card) {
      this.drives = Cards.driven(card).length;
      this.watches = Cards.watched(card).length;
      this.codec = new MessageCodec(drives, watches);
      this.bench =
          new SimulatedBench(
              card,
              Cards.driven(card),
              Cards.watched(card),
              SimSettings.of(1, "01").withSlots(SLOTS));
      bench.watchDrives(
          (nowNs, now) -> {
            on.clear();
            on.or(now);
          });
    }

    void deed(FuzzedDataProvider script) {
      switch (script.consumeInt(0, 9)) {
        case 0 -> write(script.consumeBytes(script.consumeInt(0, MOST_BYTES)));
        case 1 ->
            send(
                script.consumeInt(0, 255),
                script.consumeBoolean() ? session : script.consumeInt(),
                script.consumeBytes(script.consumeInt(0, MOST_BYTES)));
        case 2 -> open(script);
        case 3 -> say(new Arm());
        case 4 -> say(new Beat(script.consumeInt(-1, MOST_DEEDS)));
        case 5 -> say(new Read(script.consumeInt(-1, MOST_DEEDS)));
        case 6 -> say(new Resume(script.consumeInt(-1, MOST_DEEDS)));
        case 7 -> say(new Stop());
        case 8 -> rest(script.consumeInt(0, LONGEST_REST_US));
        default -> step(script);
      }
      rest(0);
    }

    private void open(FuzzedDataProvider script) {
      int follows = session;
      session++;
      write(
          codec.encode(
              new Frame(
                  session,
                  new Open(
                      boot,
                      script.consumeBoolean() ? follows : script.consumeInt(),
                      script.consumeInt(0, 11_000),
                      script.consumeInt(0, 255),
                      script.consumeInt(0, 300),
                      script.consumeInt(0, 65_535),
                      script.consumeInt(0, 20_000),
                      set(script, drives),
                      set(script, watches)))));
    }

    private void step(FuzzedDataProvider script) {
      int number = (status == null ? 0 : status.next()) + script.consumeInt(-1, 1);
      long watchUs = script.consumeInt(0, 500_000);
      say(
          new cardproof.link.Step(
              number,
              script.consumeBoolean(),
              script.consumeBoolean(),
              script.consumeBoolean(),
              watchUs / 2,
              watchUs,
              script.consumeInt(0, 100_000),
              script.consumeInt(0, 500_000),
              set(script, drives),
              set(script, drives),
              set(script, watches),
              set(script, watches),
              set(script, watches)));
    }

    private static BitSet set(FuzzedDataProvider script, int channels) {
      return BitSet.valueOf(new long[] {script.consumeLong() & (1L << channels) - 1});
    }

    private void say(Message message) {
      write(codec.encode(new Frame(session, message)));
    }

    void send(int type, int ofSession, byte[] body) {
      write(RawFrames.encode(type, ofSession, body));
      rest(0);
    }

    private void write(byte[] bytes) {
      bench.write(bytes);
    }

    void rest(int forUs) {
      long untilNs = bench.nowNs() + forUs * 1000L;
      int count = bench.read(room, untilNs);
      while (count > 0 || bench.nowNs() < untilNs) {
        parser.feed(room, 0, count);
        count = bench.read(room, untilNs);
      }
      assertThat(parser.damaged()).isZero();
    }

    private void payload(byte[] bytes, int offset, int length) {
      try {
        Message message = codec.decode(bytes, offset, length).message();
        if (message instanceof HelloReply hello) {
          boot = hello.boot();
          session = hello.session();
        } else if (message instanceof Status now) {
          assertCounters(now);
          status = now;
        } else if (message instanceof Result result) {
          assertThat(result.moved()).hasSizeLessThanOrEqualTo(watches);
          assertThat(result.number()).isLessThan(result.next());
        }
      } catch (BadFrameException bad) {
        throw new AssertionError("the fixture sent what cannot be read", bad);
      }
    }

    private void assertCounters(Status now) {
      assertThat(now.acked()).isBetween(0, now.finished());
      assertThat(now.finished()).isLessThanOrEqualTo(now.next());
      assertThat(now.next()).isLessThanOrEqualTo(now.acked() + SLOTS);
      assertThat(now.on().length()).isLessThanOrEqualTo(drives);
    }
  }
}
