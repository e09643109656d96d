package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.link.LinkEvent.Dropped;
import cardproof.link.LinkEvent.Held;
import cardproof.link.LinkEvent.Idle;
import cardproof.link.LinkEvent.ResultArrived;
import cardproof.link.ReferenceFixture.Answer;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** What a session goes through besides noise. Limits are those of section 7 of the protocol. */
class HostLinkTest {
  private static final long MS = LinkRig.MS;

  @Test
  void saysWhoIsThere() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).connected();
    assertThat(rig.link.hello().board()).isEqualTo("reference");
    assertThat(rig.link.hello().slots()).isEqualTo(4);
  }

  @Test
  void aSessionGoesThroughItsStates() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).connected();
    assertThat(rig.link.hasRoom()).isFalse();
    Status opened = rig.link.open(LinkRig.request());
    assertThat(opened.state()).isEqualTo(FixtureState.OPENED);
    assertThat(rig.link.submit(LinkRig.step(0, true))).isZero();
    rig.submitted = 1;
    rig.wire.pass(5 * MS);
    assertThat(rig.fixture.runs).as("nothing starts before ARM").isEmpty();
    rig.link.renewLease();
    rig.link.arm();
    rig.runTo(10);
    Status at = rig.link.status();
    assertThat(at.state()).isEqualTo(FixtureState.READY);
    assertThat(at.acked()).isEqualTo(10);
    Status stopped = rig.link.stop();
    assertThat(stopped.state()).isEqualTo(FixtureState.SAFE);
    assertThat(stopped.cause()).isEqualTo(DropCause.STOP);
    assertThat(rig.link.hasRoom()).isFalse();
    assertThat(rig.fixture.on().isEmpty()).isTrue();
  }

  @Test
  void aSecondSessionFollowsTheFirst() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(5);
    rig.link.open(LinkRig.request());
    assertThat(rig.fixture.state()).isEqualTo(FixtureState.OPENED);
    rig.link.stop();
    assertThat(rig.link.open(LinkRig.request()).next()).isZero();
    rig.link.arm();
    assertThat(rig.link.submit(LinkRig.step(0, true))).isZero();
    assertThat(rig.link.await(rig.wire.nowNs() + 200 * MS)).isInstanceOf(ResultArrived.class);
  }

  /** Another host opened a session since our HELLO: OPEN is refused, and asked again in order. */
  @Test
  void opensAfterAnotherHost() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).connected();
    try (HostLink other = HostLink.connect(rig.wire, new Random(2))) {
      other.open(LinkRig.request());
    }
    assertThat(rig.link.open(LinkRig.request()).state()).isEqualTo(FixtureState.OPENED);
  }

  @Test
  void roomEndsWithTheSlots() {
    LinkRig rig = LinkRig.quiet(3, LinkRig::relays).armed();
    for (int i = 0; i < 3; i++) {
      rig.link.submit(LinkRig.step(i, true));
    }
    assertThat(rig.link.hasRoom()).isFalse();
    assertThatThrownBy(() -> rig.link.submit(LinkRig.step(3, true)))
        .isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> rig.link.acknowledge(1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("handed out below 0");
    assertThat(rig.link.await(rig.wire.nowNs() + 100 * MS)).isInstanceOf(ResultArrived.class);
    assertThat(rig.link.hasRoom()).isFalse();
    rig.link.acknowledge(1);
    assertThat(rig.link.hasRoom()).isTrue();
  }

  @Test
  void waitingEndsAtTheDeadline() {
    LinkRig rig = LinkRig.quiet(4, step -> Answer.after(90_000)).armed();
    rig.link.submit(LinkRig.step(0, true));
    long deadlineNs = rig.wire.nowNs() + 50 * MS;
    assertThat(rig.link.await(deadlineNs)).isInstanceOf(Idle.class);
    assertThat(rig.wire.nowNs()).isEqualTo(deadlineNs);
    assertThat(rig.link.eventReady()).isFalse();
    assertThat(rig.wire.nowNs()).as("looking takes no time").isEqualTo(deadlineNs);
    rig.wire.pass(100 * MS);
    assertThat(rig.link.eventReady()).isTrue();
    assertThat(rig.link.await(0)).isInstanceOf(ResultArrived.class);
  }

  @Test
  void reboot() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(20);
    rig.next(30);
    int given = rig.results.size();
    int ran = rig.fixture.runs.size();
    rig.fixture.reset();
    Dropped dropped = (Dropped) lastOf(rig, 30);
    assertThat(dropped.status().boot()).isEqualTo(0x101);
    assertThat(dropped.status().state()).isEqualTo(FixtureState.SAFE);
    assertThat(rig.results.size()).isBetween(given, given + 1);
    assertThat(rig.fixture.runs).as("nothing is replayed").hasSize(ran);
    assertThat(rig.link.hasRoom()).isFalse();
    assertThat(rig.link.await(0)).isEqualTo(dropped);

    assertThat(rig.link.open(LinkRig.request()).boot()).isEqualTo(0x101);
    assertThat(rig.link.hello().boot()).isEqualTo(0x101);
    rig.link.arm();
    rig.link.submit(LinkRig.step(0, true));
    assertThat(rig.link.await(rig.wire.nowNs() + 100 * MS)).isInstanceOf(ResultArrived.class);
  }

  /** The reset comes while a request waits, not an event. */
  @Test
  void rebootBeforeStop() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(3);
    rig.fixture.reset();
    assertThat(rig.link.stop().boot()).isEqualTo(0x101);
  }

  @Test
  void rebootBeforeArm() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).connected();
    rig.link.open(LinkRig.request());
    rig.fixture.reset();
    assertThatThrownBy(rig.link::arm)
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("SAFE")
        .hasMessageContaining("NEVER_LIVE");
  }

  @Test
  void silenceBeforeArm() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).connected();
    rig.link.open(LinkRig.request());
    rig.wire.pass(1500 * MS);
    assertThatThrownBy(rig.link::arm)
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("SAFE")
        .hasMessageContaining("SILENCE");
  }

  @Test
  void trip() {
    LinkRig rig =
        LinkRig.quiet(4, step -> new Answer(30_000, false, step.number() == 7, false, 3)).armed();
    Dropped dropped = (Dropped) lastOf(rig, 30);
    assertThat(dropped.status().state()).isEqualTo(FixtureState.TRIPPED);
    assertThat(dropped.status().cause()).isEqualTo(DropCause.CHATTER);
    assertThat(rig.results).hasSize(8);
    assertThat(rig.results.get(7).has(ResultFlag.TRIPPED)).isTrue();
    assertThat(rig.fixture.runs).hasSize(8);
    assertThat(rig.wire.beats()).isZero();
  }

  /** The result of the step that tripped is lost, and the status too: both are asked for. */
  @Test
  void tripUnheard() {
    LinkRig rig =
        LinkRig.quiet(4, step -> new Answer(30_000, false, step.number() == 7, false, 3)).armed();
    rig.runTo(6);
    rig.link.renewLease();
    LinkEvent event = rig.next(30);
    assertThat(event).isInstanceOf(ResultArrived.class);
    rig.faults("link: lose 100 %");
    rig.wire.pass(60 * MS);
    rig.faults();
    Dropped dropped = (Dropped) lastOf(rig, 30);
    assertThat(dropped.status().state()).isEqualTo(FixtureState.TRIPPED);
    assertThat(rig.results).hasSize(8);
    assertThat(rig.link.counters().resultsRead()).isEqualTo(1);
  }

  @Test
  void hungStep() {
    LinkRig rig =
        LinkRig.quiet(4, step -> new Answer(30_000, false, false, step.number() == 5, 0)).armed();
    rig.runTo(5);
    long fromNs = rig.wire.nowNs();
    assertThatThrownBy(() -> lastOf(rig, 30))
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("step 5 is hung")
        .hasMessageContaining("RUN");
    // watch of 100 ms and 500 ms more, from the first beat that is answered to another one
    assertThat(rig.wire.nowNs() - fromNs).isBetween(599 * MS, 860 * MS);
    assertThat(rig.fixture.state()).isEqualTo(FixtureState.SAFE);
    assertThat(rig.fixture.on().isEmpty()).isTrue();
  }

  @Test
  void heldAndResumed() {
    LinkRig rig =
        LinkRig.quiet(6, step -> new Answer(20_000, step.number() % 10 == 4, false, false, 1))
            .armed();
    int holds = 0;
    while (rig.results.size() < 30) {
      LinkEvent event = rig.next(30);
      if (event instanceof Held held) {
        int at = rig.results.size() - 1;
        assertThat(at % 10).isEqualTo(4);
        assertThat(held.status().finished()).isEqualTo(at + 1);
        assertThat(rig.results.get(at).has(ResultFlag.MISSED)).isTrue();
        assertThat(rig.link.hasRoom()).isFalse();
        assertThat(rig.link.attend(rig.wire.nowNs() + 2000 * MS)).isInstanceOf(Idle.class);
        assertThat(rig.fixture.runs).as("none starts while held").hasSize(at + 1);
        rig.link.renewLease();
        assertThat(rig.link.resume(at).state()).isIn(FixtureState.READY, FixtureState.RUN);
        holds++;
      } else {
        assertThat(event).isInstanceOf(ResultArrived.class);
      }
    }
    rig.assertExactlyOnce(30);
    assertThat(holds).isEqualTo(3);
  }

  @Test
  void heldOnABadLine() {
    LinkRig rig =
        new LinkRig(
            77, 6, 256, step -> new Answer(20_000, step.number() % 3 == 1, false, false, 1));
    rig.faults(LinkRig.noise(10));
    rig.armed();
    int holds = 0;
    while (rig.results.size() < 300) {
      LinkEvent event = rig.next(300);
      if (event instanceof Held) {
        int at = rig.results.size() - 1;
        assertThat(at % 3).isEqualTo(1);
        rig.link.resume(at);
        holds++;
      } else {
        assertThat(event).isInstanceOf(ResultArrived.class);
      }
    }
    rig.assertExactlyOnce(300);
    assertThat(holds).isEqualTo(100);
  }

  /** The host does nothing for longer than its lease: the fixture drops, and the host is told. */
  @Test
  void hostStalls() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(6);
    rig.link.renewLease();
    rig.wire.pass(300 * MS);
    assertThat(rig.fixture.state()).as("still beaten").isEqualTo(FixtureState.READY);
    rig.wire.pass(1300 * MS);
    assertThat(rig.fixture.state()).isEqualTo(FixtureState.SAFE);
    Dropped dropped = (Dropped) lastOf(rig, 6);
    assertThat(dropped.status().cause()).isEqualTo(DropCause.SILENCE);
  }

  /** A question is lost, and the host is busy before it can ask again: the line is not to blame. */
  @Test
  void timeAwayIsNotTheLinesSilence() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(3);
    rig.link.stop();
    rig.faults("link: lose 100 %");
    assertThat(rig.link.await(rig.wire.nowNs() + 50 * MS)).isInstanceOf(Idle.class);
    rig.faults();
    rig.wire.pass(5000 * MS);
    assertThat(rig.link.await(rig.wire.nowNs() + 200 * MS)).isInstanceOf(Dropped.class);
  }

  /** Waiting alone is no answering for the run. */
  @Test
  void waitingWithoutALeaseLetsTheDrivesDrop() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(6);
    LinkEvent event = rig.link.await(rig.wire.nowNs() + 10_000 * MS);
    assertThat(event).isInstanceOf(Dropped.class);
    assertThat(((Dropped) event).status().cause()).isEqualTo(DropCause.SILENCE);
  }

  @Test
  void leaseKeepsALongStep() {
    LinkRig rig = LinkRig.quiet(4, step -> Answer.after(2_500_000)).armed();
    BitSet none = new BitSet();
    rig.link.submit(
        new StepRequest(
            true,
            false,
            false,
            2_000_000,
            3_000_000,
            10_000,
            0,
            LinkRig.set(1),
            LinkRig.set(1),
            none,
            none,
            none));
    rig.link.renewLease();
    assertThat(rig.link.attend(rig.wire.nowNs() + 3000 * MS)).isInstanceOf(ResultArrived.class);
    assertThat(rig.wire.beats()).isBetween(18L, 20L);
  }

  @Test
  void lineCut() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(6);
    rig.wire.cut();
    long fromNs = rig.wire.nowNs();
    assertThatThrownBy(() -> lastOf(rig, 100))
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("link lost");
    assertThat(rig.wire.nowNs() - fromNs).isLessThanOrEqualTo(1600 * MS);
    long closingNs = rig.wire.nowNs();
    rig.link.close();
    rig.link.close();
    assertThat(rig.wire.nowNs() - closingNs).isLessThanOrEqualTo(1100 * MS);
  }

  @Test
  void stopOnADeadLineIsBounded() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.wire.cut();
    long fromNs = rig.wire.nowNs();
    assertThatThrownBy(rig.link::stop)
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("no answer to STOP, sent 10 times");
    assertThat(rig.wire.nowNs() - fromNs).isEqualTo(1000 * MS);
  }

  @Test
  void resultsCanBeHadAfterStop() {
    LinkRig rig = LinkRig.quiet(4, step -> Answer.after(20_000)).armed();
    for (int i = 0; i < 4; i++) {
      rig.link.submit(LinkRig.step(i, true));
    }
    rig.wire.pass(50 * MS);
    rig.link.stop();
    rig.submitted = 4;
    Dropped dropped = (Dropped) lastOf(rig, 4);
    assertThat(dropped.status().cause()).isEqualTo(DropCause.STOP);
    assertThat(rig.results.stream().map(Result::number)).isEqualTo(List.of(0, 1, 2));
    assertThat(rig.results.get(2).has(ResultFlag.STOPPED)).isTrue();
  }

  /** The port was unplugged for a moment; the fixture was not. */
  @Test
  void aLostSessionIsRejoined() {
    LinkRig rig = LinkRig.quiet(4, step -> Answer.after(20_000)).armed();
    rig.runTo(5);
    for (int i = 5; i < 9; i++) {
      rig.link.submit(LinkRig.step(i, true));
    }
    int session = rig.link.session();
    rig.wire.pass(50 * MS);
    HostLink second = HostLink.connect(rig.wire, new Random(9));
    assertThat(second.rejoin(session + 1, 5)).isFalse();
    assertThat(second.rejoin(session, 5)).isTrue();
    List<Integer> fetched = new ArrayList<>();
    LinkEvent event = second.await(rig.wire.nowNs() + 1000 * MS);
    while (event instanceof ResultArrived arrived) {
      fetched.add(arrived.result().number());
      event = second.await(rig.wire.nowNs() + 1000 * MS);
    }
    assertThat(fetched).isEqualTo(List.of(5, 6, 7));
    assertThat(((Dropped) event).status().state()).isEqualTo(FixtureState.SAFE);
    assertThat(rig.fixture.runs).hasSize(8);
    assertThat(second.open(LinkRig.request()).state()).isEqualTo(FixtureState.OPENED);
  }

  @Test
  void closingDropsTheDrives() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    rig.runTo(6);
    assertThat(rig.fixture.on().isEmpty()).isFalse();
    rig.link.close();
    assertThat(rig.fixture.state()).isEqualTo(FixtureState.SAFE);
    rig.wire.pass(3000 * MS);
    assertThat(rig.wire.beats()).isZero();
  }

  @Test
  void refusedOpenNamesTheField() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).connected();
    BitSet all = LinkRig.set(0xFF);
    OpenRequest hasty = new OpenRequest(50, 8, 5000, 2000, 10_000, all, all);
    assertThatThrownBy(() -> rig.link.open(hasty))
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("refused OPEN: bad field at offset 8");
  }

  @Test
  void refusedStepIsNamed() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays).armed();
    BitSet none = new BitSet();
    rig.link.submit(
        new StepRequest(true, false, false, 10, 0, 10, 0, none, none, none, none, none));
    assertThatThrownBy(() -> rig.link.await(rig.wire.nowNs() + 100 * MS))
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("refused step 0: bad field at offset 9");
  }

  /** Runs on until something else than a result comes. */
  private static LinkEvent lastOf(LinkRig rig, int count) {
    LinkEvent event = rig.next(count);
    while (event instanceof ResultArrived) {
      event = rig.next(count);
    }
    return event;
  }
}
