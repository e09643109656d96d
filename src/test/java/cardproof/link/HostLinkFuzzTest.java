package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import com.code_intelligence.jazzer.junit.FuzzTest;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * The host against a line, and against a fixture, that mean no good: whatever comes, it throws
 * nothing but {@link LinkException}, waits no longer than it says, and hands out results in order.
 */
class HostLinkFuzzTest {
  private static final long MS = 1_000_000;
  private static final int EVENTS = 60;
  private static final int SLOTS = 4;

  /** A wait may find a hung step, and tell the fixture to stop for a second. */
  private static final long WAIT_NS = 2000 * MS;

  private static final long SLACK_NS = 1100 * MS;

  /** Many times what the same exchange needs on a quiet line. */
  private static final int MOST_READS = 20_000;

  /** Bytes of any kind between, before and instead of frames: nothing that comes out is false. */
  @FuzzTest(maxDuration = "10m")
  void bytes(FuzzedDataProvider script) {
    Meeting meeting = new Meeting(script, false);
    meeting.go();
    for (Result result : meeting.results) {
      assertThat(result.last()).isEqualTo(LinkRig.set(result.number() & 0xFF));
    }
    List<ReferenceFixture.Run> runs = meeting.fixture.inside().runs;
    for (int i = 0; i < runs.size(); i++) {
      assertThat(runs.get(i).number()).as("each once and in order").isEqualTo(i);
    }
    assertThat(meeting.results).hasSizeLessThanOrEqualTo(runs.size());
  }

  /** A fixture that says what it likes in good frames. */
  @FuzzTest(maxDuration = "10m")
  void lies(FuzzedDataProvider script) {
    new Meeting(script, true).go();
  }

  private static final class Meeting {
    private final VirtualWire wire;
    private final List<Result> results = new ArrayList<>();
    private HostileFixture fixture;
    private int submitted;

    Meeting(FuzzedDataProvider script, boolean liar) {
      this.wire =
          new VirtualWire(
              1,
              line -> {
                fixture = new HostileFixture(script, liar, line, SLOTS, Meeting::card);
                return fixture;
              });
    }

    private static ReferenceFixture.Answer card(Step step) {
      return new ReferenceFixture.Answer(30_000, step.number() % 7 == 6, false, false, 3);
    }

    void go() {
      try {
        HostLink link = HostLink.connect(wire, new Random(1));
        try (link) {
          link.open(LinkRig.request());
          link.renewLease();
          link.arm();
          for (int i = 0; i < EVENTS && take(link, next(link)); i++) {
            assertThat(wire.reads()).isLessThan(MOST_READS);
          }
          link.stop();
        }
      } catch (LinkException declared) {
        assertThat(declared.problem().found()).isNotBlank();
      }
      assertThat(wire.reads()).isLessThan(MOST_READS);
    }

    private LinkEvent next(HostLink link) {
      link.renewLease();
      while (link.hasRoom()) {
        assertThat(link.submit(LinkRig.step(submitted, true))).isEqualTo(submitted);
        submitted++;
      }
      long calledNs = wire.nowNs();
      LinkEvent event = link.await(calledNs + WAIT_NS);
      assertThat(wire.nowNs() - calledNs).isLessThanOrEqualTo(WAIT_NS + SLACK_NS);
      return event;
    }

    private boolean take(HostLink link, LinkEvent event) {
      if (event instanceof LinkEvent.ResultArrived arrived) {
        Result result = arrived.result();
        assertThat(result.number()).isEqualTo(results.size()).isLessThan(submitted);
        assertThat(result.moved()).hasSize(result.movedTotal());
        results.add(result);
        link.acknowledge(results.size());
      } else if (event instanceof LinkEvent.Held held) {
        link.resume(held.status().finished() - 1);
      }
      return !(event instanceof LinkEvent.Dropped);
    }
  }
}
