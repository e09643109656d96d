package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.run.StopSignal;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Only the third Ctrl-C ends the program, which would be the end of this test too. */
class StopHandlerTest {
  private final StopSignal stop = new StopSignal();
  private final StopHandler handler = new StopHandler(stop);

  @Test
  void theFirstCtrlCLetsTheVectorEndAndTheSecondDoesNot() {
    handler.signal("INT");
    assertThat(stop.reason()).isPresent();
    assertThat(stop.isUrgent()).isFalse();
    handler.signal("INT");
    assertThat(stop.isUrgent()).isTrue();
  }

  @ParameterizedTest
  @ValueSource(strings = {"TERM", "HUP"})
  void anotherSignalDropsAtOnceAndACtrlCAfterItStillRecords(String name) {
    handler.signal(name);
    assertThat(stop.isUrgent()).isTrue();
    handler.signal("INT");
    handler.signal("INT");
    assertThat(stop.isUrgent()).isTrue();
  }
}
