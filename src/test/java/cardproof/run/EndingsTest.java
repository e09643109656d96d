package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.HelloReply;
import cardproof.link.LinkException;
import cardproof.link.Status;
import cardproof.log.RunEnd;
import cardproof.text.Problem;
import java.util.BitSet;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every way in which a fixture can have dropped its drives by itself. */
class EndingsTest {
  private static final int BOOT = 7;

  private static Endings.About about(int resetCause, long absenceMs) {
    HelloReply hello =
        new HelloReply(1, 1, "1.1.0", resetCause, 8, 3, 8, 8, 4, 128, 3100, 30, 0, "Gull Point", 0);
    return new Endings.About("/dev/ttyACM0", BOOT, Optional.of(hello), absenceMs);
  }

  private static Status status(FixtureState state, DropCause cause, int boot) {
    BitSet none = new BitSet();
    return new Status(state, cause, 255, boot, 0, 0, 0, 0, 0, 0, none, none, none);
  }

  @ParameterizedTest
  @CsvSource({
    "SAFE, NEVER_LIVE, 8, LINK_LOST, restarted",
    "TRIPPED, CHATTER, 8, LINK_LOST, restarted",
    "SAFE, SILENCE, 7, LINK_LOST, heard nothing",
    "UNKNOWN, OPEN, 7, LINK_LOST, another program",
    "TRIPPED, CHATTER, 7, TRIPPED, went on changing",
    "TRIPPED, HOLD_LIMIT, 7, TRIPPED, held longer",
    "TRIPPED, SUPPLY, 7, TRIPPED, supply tripped"
  })
  void saysWhatHappenedAndWhatToDo(
      FixtureState state, DropCause cause, int boot, RunEnd end, String words) {
    Status status = status(state, cause, boot);
    RunEnding ending = Endings.dropped(status, about(0, 0));
    assertThat(ending.end()).isEqualTo(end);
    assertThat(ending.why()).contains(words);
    assertThat(ending.problem().orElseThrow().where()).isEqualTo("/dev/ttyACM0");
    assertThat(ending.problem().orElseThrow().found()).isEqualTo(ending.why());
    assertThat(ending.problem().orElseThrow().next()).isNotEmpty();
  }

  /** Reset causes as section 5 of protocol.md numbers them. */
  @ParameterizedTest
  @CsvSource({
    "0, it does not say why, dips or a loose USB plug",
    "1, its power was gone, a loose USB plug",
    "2, its reset was pressed, Keep off the button",
    "3, brown-out, another supply than the coils",
    "4, watchdog, firmware is at fault",
    "5, its own program, loading firmware",
    "9, it does not say why, dips or a loose USB plug"
  })
  void aRestartSaysWhyAndWhatToLookAt(int cause, String why, String next) {
    RunEnding ending =
        Endings.dropped(status(FixtureState.SAFE, DropCause.NEVER_LIVE, 8), about(cause, 0));
    assertThat(ending.why()).contains("restarted", why);
    assertThat(ending.problem().orElseThrow().next()).contains(next, "no longer known");
    assertThat(ending.mayReturn()).isTrue();
  }

  @Test
  void silenceWhileThisProgramWasAwayIsNotTheLines() {
    Status silent = status(FixtureState.SAFE, DropCause.SILENCE, BOOT);
    assertThat(Endings.dropped(silent, about(0, 4200)).problem().orElseThrow().toString())
        .contains("for 4.2 s this program did not go on", "Keep the computer from sleeping");
    assertThat(Endings.dropped(silent, about(0, 0)).problem().orElseThrow().toString())
        .contains("was there all the time", "check the cable");
  }

  @Test
  void aLineThatIsGoneAfterASleepSaysThatToo() {
    LinkException gone =
        new LinkException(new Problem("/dev/ttyACM0", "the device is gone", "", "Check the cable"));
    assertThat(Endings.lost(gone, about(0, 300_000)).why())
        .isEqualTo(
            "the device is gone: for 300.0 s this program did not go on (the computer slept, the"
                + " program was stopped, or its disk hung)");
    assertThat(Endings.lost(gone, about(0, 0)).why()).isEqualTo("the device is gone");
  }

  @Test
  void nobodyFightsForAFixtureThatAnotherHasTaken() {
    Status taken = status(FixtureState.UNKNOWN, DropCause.OPEN, BOOT);
    assertThat(Endings.dropped(taken, about(0, 0)).mayReturn()).isFalse();
  }
}
