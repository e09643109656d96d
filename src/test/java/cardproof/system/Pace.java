package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.files.PlanFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.fixture.Observation;
import cardproof.fixture.Pattern;
import cardproof.fixture.Session;
import cardproof.fixture.SessionEvent;
import cardproof.fixture.SessionSettings;
import cardproof.link.serial.SerialWire;
import cardproof.plan.Plan;
import cardproof.plan.StepFilter;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;

/**
 * How long a plan takes on a serial port beside the time that its card needs: the program's run,
 * and that of a sender with one step under way at a time.
 *
 * @param vectors how many
 * @param cardMs what the card needs, all steps together, on the fixture's clock
 * @param wallMs from arming to the last result, for the program: to its record, safe on disk
 */
record Pace(int vectors, double cardMs, double wallMs) {
  private static final Path PLAN = Path.of("src/test/resources/system/pick-plan.yaml");
  private static final String CARD = "src/test/resources/system/pick-card.yaml";
  private static final int ANY_WIDTH = 255;
  private static final int BAUD = 250_000;
  private static final long SLICE_NS = 50_000_000L;

  /** As {@code Runner} has it. */
  private static final int AUDIT_EVERY = 20;

  double ratio() {
    return wallMs / cardMs;
  }

  /**
   * A board on which every byte takes {@code roundTripMs / 2} each way, whatever its neighbours do:
   * no shorter on average than an adapter that keeps what it has received for up to as long before
   * it tells the computer.
   */
  static Board board(int slots, int roundTripMs) {
    return Board.with(CARD, "slots=" + slots, "delayUs=" + 1000 * roundTripMs / 2);
  }

  /** The program's own run, with its bench log. */
  static Pace ofProgram(Path home, Board board, String step) throws Exception {
    Ended ended =
        Program.run(
            home,
            "run",
            PLAN.toString(),
            "--port",
            board.port(),
            "--powered",
            "--json",
            "--only",
            step,
            "--log",
            home.resolve("bench-log.sqlite").toString());
    assertThat(ended.exit()).as(ended.toString()).isZero();
    JsonObject json = JsonParser.parseString(ended.out()).getAsJsonObject();
    return new Pace(
        json.get("vectors").getAsInt(),
        json.get("cardMs").getAsDouble(),
        json.get("wallMs").getAsDouble());
  }

  /** The same vectors, each sent when the result of the one before is there; nothing recorded. */
  static Pace ofOneAtATime(Board board, String step) {
    Plan plan = PlanFile.read(PLAN).value().only(new StepFilter(List.of(step), List.of()));
    HookUp hookUp = HookUp.of(plan.card(), FixtureProfile.serialBoard(ANY_WIDTH, ANY_WIDTH));
    long cardUs = 0;
    int count = 0;
    try (SerialWire wire = SerialWire.open(board.port(), BAUD);
        Session session =
            Session.open(wire, hookUp, SessionSettings.of(plan.card()), new SplittableRandom(1))) {
      long armedNs = wire.nowNs();
      long lastNs = armedNs;
      session.arm();
      VectorSource source = plan.vectors();
      while (source.hasNext()) {
        session.submit(pattern(source.next()));
        Observation seen = awaitObservation(session);
        lastNs = wire.nowNs();
        assertThat(seen.quiet()).isTrue();
        cardUs += seen.durationUs();
        count++;
        session.acknowledge(count);
      }
      session.stop();
      return new Pace(count, cardUs / 1e3, (lastNs - armedNs) / 1e6);
    }
  }

  private static Pattern pattern(Vector vector) {
    return new Pattern(
        vector.level(),
        vector.enabled(),
        vector.expect(),
        vector.care(),
        vector.still(),
        vector.timing().longestLimitUs(),
        vector.timing().watchUs(),
        vector.timing().quietUs(),
        vector.number() % AUDIT_EVERY == 0,
        false);
  }

  private static Observation awaitObservation(Session session) {
    while (true) {
      SessionEvent event = session.await(SLICE_NS);
      if (event instanceof SessionEvent.Observed observed) {
        return observed.observation();
      }
      assertThat(event).isInstanceOf(SessionEvent.Nothing.class);
    }
  }

  @Override
  public String toString() {
    return String.format(
        Locale.ROOT,
        "%.3f (%d vectors, card %.0f ms, took %.0f ms)",
        ratio(),
        vectors,
        cardMs,
        wallMs);
  }
}
