package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.DropCause;
import cardproof.link.FixtureState;
import cardproof.link.Status;
import cardproof.log.RunEnd;
import java.util.BitSet;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every way in which a fixture can have dropped its drives by itself. */
class EndingsTest {
  private static final int BOOT = 7;

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
    BitSet none = new BitSet();
    Status status = new Status(state, cause, 255, boot, 0, 0, 0, 0, 0, 0, none, none, none);
    RunEnding ending = Endings.dropped(status, BOOT, "/dev/ttyACM0");
    assertThat(ending.end()).isEqualTo(end);
    assertThat(ending.why()).contains(words);
    assertThat(ending.problem().orElseThrow().where()).isEqualTo("/dev/ttyACM0");
    assertThat(ending.problem().orElseThrow().found()).isEqualTo(ending.why());
    assertThat(ending.problem().orElseThrow().next()).isNotEmpty();
  }
}
