package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.ReferenceFixture.Answer;
import cardproof.link.ReferenceFixture.Run;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Whole lives of a link, with everything that can happen happening at random. */
class HostLinkLifeTest {
  private static final long MS = LinkRig.MS;

  @Test
  void someLives() {
    live(40, new Random().nextLong());
  }

  @Test
  @Tag("long")
  void manyLives() {
    live(3000, new Random().nextLong());
  }

  private static void live(int lives, long firstSeed) {
    for (int i = 0; i < lives; i++) {
      long seed = firstSeed + i;
      try {
        new Life(seed).live(300);
      } catch (RuntimeException | AssertionError failed) {
        throw new AssertionError("life of seed " + seed, failed);
      }
    }
  }

  /** A runner that opens a new session whenever one ended. */
  private static final class Life {
    private final Random random;
    private final LinkRig rig;
    private final Map<Integer, List<Result>> given = new HashMap<>();
    private int submitted;
    private int held = -1;

    Life(long seed) {
      this.random = new Random(seed);
      int slots = 2 + random.nextInt(12);
      int longest = random.nextBoolean() ? 256 : 72;
      this.rig = new LinkRig(seed, slots, longest, this::card);
      List<String> mishaps = new ArrayList<>();
      for (String kind : List.of("lose", "repeat", "flip", "lose bytes", "garbage")) {
        befalls(mishaps, kind, 5);
      }
      befalls(mishaps, "reorder", 30);
      if (!mishaps.isEmpty()) {
        rig.faults("link: " + String.join(", ", mishaps));
      }
    }

    private void befalls(List<String> mishaps, String kind, int mostPercent) {
      if (random.nextInt(3) > 0) {
        mishaps.add(kind + " " + (1 + random.nextInt(mostPercent)) + " %");
      }
    }

    private Answer card(Step step) {
      boolean missed = random.nextInt(20) == 0;
      boolean trips = random.nextInt(150) == 0;
      return new Answer(1 + random.nextInt(60_000), missed, trips, false, random.nextInt(9));
    }

    void live(int events) {
      rig.connected();
      open();
      for (int i = 0; i < events; i++) {
        rig.link.renewLease();
        while (rig.link.hasRoom() && random.nextInt(10) > 0) {
          assertThat(rig.link.submit(LinkRig.step(submitted, random.nextBoolean())))
              .isEqualTo(submitted);
          submitted++;
        }
        mishap();
        long calledNs = rig.wire.nowNs();
        LinkEvent event = rig.link.await(calledNs + random.nextInt(300) * MS);
        assertThat(rig.wire.nowNs() - calledNs).isLessThanOrEqualTo(300 * MS);
        take(event);
      }
      rig.link.stop();
      assertThat(rig.fixture.on().isEmpty()).isTrue();
      check();
    }

    private void open() {
      assertThat(rig.link.open(LinkRig.request()).next()).isZero();
      rig.link.renewLease();
      rig.link.arm();
      submitted = 0;
      held = -1;
      given.put(rig.link.session(), new ArrayList<>());
    }

    private void mishap() {
      switch (random.nextInt(200)) {
        case 0 -> rig.fixture.reset();
        case 1 -> rig.wire.pass(random.nextInt(5000) * MS);
        case 2 -> rig.link.stop();
        case 3 -> rig.link.status();
        default -> {
          // nothing, mostly
        }
      }
    }

    private void take(LinkEvent event) {
      List<Result> results = given.get(rig.link.session());
      if (event instanceof LinkEvent.ResultArrived arrived) {
        results.add(arrived.result());
        if (random.nextBoolean()) {
          rig.link.acknowledge(results.size());
        }
      } else if (event instanceof LinkEvent.Held hold) {
        assertThat(hold.status().finished()).isEqualTo(results.size());
        assertThat(results.size() - 1).isGreaterThan(held);
        held = results.size() - 1;
        rig.link.acknowledge(results.size());
        rig.link.resume(held);
      } else if (event instanceof LinkEvent.Dropped dropped) {
        if (dropped.status().boot() == rig.link.hello().boot()) {
          assertThat(results)
              .as("every step that ended was told")
              .hasSize(dropped.status().finished());
        }
        open();
      } else {
        rig.link.acknowledge(results.size());
      }
    }

    private void check() {
      Map<Integer, Integer> ran = new HashMap<>();
      for (Run run : rig.fixture.runs) {
        assertThat(run.number())
            .as("run once, in order")
            .isEqualTo(ran.merge(run.session(), 1, Integer::sum) - 1);
        assertThat(run.level()).isEqualTo(LinkRig.set(run.number() & 0xFF));
      }
      given.forEach(
          (session, results) -> {
            assertThat(results.size()).isLessThanOrEqualTo(ran.getOrDefault(session, 0));
            for (int i = 0; i < results.size(); i++) {
              assertThat(results.get(i).number()).isEqualTo(i);
              assertThat(results.get(i).last()).isEqualTo(LinkRig.set(i & 0xFF));
            }
          });
    }
  }
}
