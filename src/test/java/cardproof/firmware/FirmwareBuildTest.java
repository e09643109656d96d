package cardproof.firmware;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The firmware by its own makefile: every warning is an error there. */
class FirmwareBuildTest {
  @Test
  void everyBoardFitsItsChip() {
    assertThat(Built.make("size")).contains("m2560 ", "m328p ", "m328p-shift ");
  }

  @Test
  void theWorkedFramesGoThroughTheCoreByteForByte() {
    assertThat(Built.make("test")).contains("all as on the page");
  }

  /** cppcheck ends with an error for any finding. */
  @Test
  void theStaticAnalyserFindsNothing() {
    Built.needs("cppcheck");
    Built.make("check");
  }
}
