package cardproof.sim;

import static cardproof.link.FixtureState.HELD;
import static cardproof.link.FixtureState.OPENED;
import static cardproof.link.FixtureState.READY;
import static cardproof.link.FixtureState.RUN;
import static cardproof.link.FixtureState.SAFE;
import static cardproof.link.FixtureState.TRIPPED;
import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Arm;
import cardproof.link.Beat;
import cardproof.link.FixtureState;
import cardproof.link.Frame;
import cardproof.link.Hello;
import cardproof.link.HelloReply;
import cardproof.link.Message;
import cardproof.link.Nack;
import cardproof.link.NackReason;
import cardproof.link.Read;
import cardproof.link.Result;
import cardproof.link.Resume;
import cardproof.link.Status;
import cardproof.link.Stop;
import java.util.EnumMap;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Every message in every state: what is answered, and what state it leaves; the tables of {@code
 * firmware-notes/protocol.md}, sections 4 and 5.
 *
 * <p>In each state step 0 has run (in RUN it is running; in OPENED and SAFE none was sent).
 */
class FixtureStatesTest {
  private static final int OTHER = 0x0BAD_CAFE;
  private static final FixtureState[] STATES = {SAFE, OPENED, READY, RUN, HELD, TRIPPED};

  /** Answer, then the state that is left, in the order of {@link #STATES}. */
  private enum Row {
    HELLO("hello SAFE, hello OPENED, hello READY, hello RUN, hello HELD, hello TRIPPED"),
    OPEN_ANOTHER(
        "status OPENED, status OPENED, status OPENED, status OPENED, status OPENED, status OPENED"),
    OPEN_AGAIN("status SAFE, status OPENED, status READY, status RUN, status HELD, status TRIPPED"),
    OPEN_LATE(
        "WRONG_SESSION SAFE, WRONG_SESSION OPENED, WRONG_SESSION READY, WRONG_SESSION RUN,"
            + " WRONG_SESSION HELD, WRONG_SESSION TRIPPED"),
    ARM(
        "WRONG_STATE SAFE, status READY, status READY, status RUN, status HELD, WRONG_STATE TRIPPED"),
    STOP("status SAFE, status SAFE, status SAFE, result SAFE, status SAFE, status TRIPPED"),
    RESUME("status SAFE, status OPENED, status READY, status RUN, status READY, status TRIPPED"),
    RESUME_OTHER(
        "status SAFE, status OPENED, status READY, status RUN, status HELD, status TRIPPED"),
    STEP_NEXT("WRONG_STATE SAFE, - OPENED, - RUN, - RUN, - HELD, WRONG_STATE TRIPPED"),
    STEP_REPEATED(
        "WRONG_STATE SAFE, - OPENED, status READY, status RUN, status HELD, WRONG_STATE TRIPPED"),
    STEP_TOO_FAR(
        "WRONG_STATE SAFE, OUT_OF_ORDER OPENED, OUT_OF_ORDER READY, OUT_OF_ORDER RUN,"
            + " OUT_OF_ORDER HELD, WRONG_STATE TRIPPED"),
    BEAT("status SAFE, status OPENED, status READY, status RUN, status HELD, status TRIPPED"),
    BEAT_TOO_FAR(
        "BAD_FIELD SAFE, BAD_FIELD OPENED, BAD_FIELD READY, BAD_FIELD RUN, BAD_FIELD HELD,"
            + " BAD_FIELD TRIPPED"),
    READ_STEP_0(
        "status SAFE, status OPENED, result READY, status RUN, result HELD, result TRIPPED"),
    READ_STEP_9(
        "status SAFE, status OPENED, status READY, status RUN, status HELD, status TRIPPED"),
    OTHER_SESSION(
        "WRONG_SESSION SAFE, WRONG_SESSION OPENED, WRONG_SESSION READY, WRONG_SESSION RUN,"
            + " WRONG_SESSION HELD, WRONG_SESSION TRIPPED"),
    FIXTURES_OWN(
        "UNKNOWN_TYPE SAFE, UNKNOWN_TYPE OPENED, UNKNOWN_TYPE READY, UNKNOWN_TYPE RUN,"
            + " UNKNOWN_TYPE HELD, UNKNOWN_TYPE TRIPPED");

    private final Map<FixtureState, String> cells = new EnumMap<>(FixtureState.class);

    Row(String text) {
      String[] all = text.split(",\\s*");
      for (int i = 0; i < STATES.length; i++) {
        cells.put(STATES[i], all[i]);
      }
    }

    void send(RawHost host, FixtureState state) {
      int next = state == SAFE || state == OPENED ? 0 : 1;
      switch (this) {
        case HELLO -> host.sendAs(77, new Hello(9, 9));
        case OPEN_ANOTHER -> host.sendAs(OTHER, host.usualAfter(RawHost.SESSION));
        case OPEN_AGAIN -> host.send(host.usualAfter(0));
        case OPEN_LATE -> host.sendAs(OTHER, host.usualAfter(0));
        case ARM -> host.send(new Arm());
        case STOP -> host.send(new Stop());
        case RESUME -> host.send(new Resume(0));
        case RESUME_OTHER -> host.send(new Resume(1));
        case STEP_NEXT -> host.send(Steps.number(next).drive(2, 2).step());
        case STEP_REPEATED -> host.send(Steps.number(0).drive(2, 2).step());
        case STEP_TOO_FAR -> host.send(Steps.number(next + 1).drive(2, 2).step());
        case BEAT -> host.send(new Beat(0));
        case BEAT_TOO_FAR -> host.send(new Beat(next + 1));
        case READ_STEP_0 -> host.send(new Read(0));
        case READ_STEP_9 -> host.send(new Read(9));
        case OTHER_SESSION -> host.sendAs(OTHER, new Stop());
        case FIXTURES_OWN -> host.send(new Nack(NackReason.WRONG_STATE, 3, 0, 0));
        default -> throw new AssertionError(this);
      }
    }
  }

  @TestFactory
  Stream<DynamicTest> everyMessageInEveryState() {
    return Stream.of(Row.values())
        .flatMap(
            row ->
                Stream.of(STATES)
                    .map(
                        state ->
                            DynamicTest.dynamicTest(
                                row + " in " + state, () -> check(row, state))));
  }

  private void check(Row row, FixtureState state) {
    RawHost host = in(state);
    row.send(host, state);

    String[] wanted = row.cells.get(state).split(" ");
    // whatever is to come comes at once on a line without delay
    Frame answer = host.pollNow().orElse(null);
    assertThat(answer == null ? "-" : named(answer.message())).isEqualTo(wanted[0]);
    if (answer != null && answer.message() instanceof Status status) {
      assertThat(status.state().name()).isEqualTo(wanted[1]);
    }
    host.inSession(row == Row.OPEN_ANOTHER ? OTHER : RawHost.SESSION);
    host.rest(0);
    assertThat(host.ask(new Beat(0), Status.class).state().name()).isEqualTo(wanted[1]);
  }

  private static String named(Message message) {
    if (message instanceof Nack nack) {
      return nack.reason().name();
    } else if (message instanceof HelloReply) {
      return "hello";
    }
    return message instanceof Result ? "result" : "status";
  }

  /** A fixture of two drives and two watches in this state. */
  static RawHost in(FixtureState state) {
    ScriptedCircuit card = new ScriptedCircuit();
    if (state == TRIPPED) {
      card.flipEvery(1, 20, 8);
    }
    RawHost host = new RawHost(card.bench(2, 2));
    host.hello();
    host.open(RawHost.SESSION);
    if (state == SAFE) {
      host.ask(new Stop(), Status.class);
    } else if (state != OPENED) {
      host.ask(new Arm(), Status.class);
      Steps step = Steps.number(0).drive(1, 2);
      step = state == READY ? step : step.expect(1, 1);
      host.send((state == HELD ? step.gated() : step).step());
      host.rest(state == RUN ? 1000 : 500_000);
    }
    assertThat(host.ask(new Beat(0), Status.class).state()).isEqualTo(state);
    return host;
  }

  @ParameterizedTest
  @EnumSource(value = FixtureState.class, names = "UNKNOWN", mode = EnumSource.Mode.EXCLUDE)
  void drivesAreOnInTheLiveStatesOnly(FixtureState state) {
    boolean live = state == READY || state == RUN || state == HELD;

    Status status = in(state).ask(new Beat(0), Status.class);

    assertThat(Steps.bits(status.on())).isEqualTo(live ? 1 : 0);
  }
}
