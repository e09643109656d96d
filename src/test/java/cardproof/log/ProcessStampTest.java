package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.OptionalLong;
import org.junit.jupiter.api.Test;

final class ProcessStampTest {
  private static final ProcessStamp OWN = ProcessStamp.own();
  private static final long HOUR_US = 3_600_000_000L;

  @Test
  void itsOwnProcessIsAlive() {
    assertThat(OWN.isGone(OWN)).isFalse();
  }

  @Test
  void aProcessThatIsAliveIsNotGone() {
    ProcessHandle parent = ProcessHandle.current().parent().orElseThrow();
    assertThat(stamp(OWN.host(), parent.pid(), OptionalLong.empty()).isGone(OWN)).isFalse();
  }

  @Test
  void aNumberUsedAgainIsAnotherProcess() {
    OptionalLong earlier = OptionalLong.of(OWN.startedUs().orElse(0) - HOUR_US);
    assertThat(stamp(OWN.host(), OWN.pid(), earlier).isGone(OWN))
        .isEqualTo(OWN.startedUs().isPresent());
  }

  @Test
  void aNumberThatNoProcessHasIsGone() {
    // Above the largest that Linux can be set to give, 2^22 (proc(5), pid_max).
    assertThat(stamp(OWN.host(), (1L << 22) + 1, OWN.startedUs()).isGone(OWN)).isTrue();
  }

  @Test
  void ofAnotherHostNothingIsKnown() {
    assertThat(stamp("rack-room", (1L << 22) + 1, OWN.startedUs()).isGone(OWN)).isFalse();
  }

  private static ProcessStamp stamp(String host, long pid, OptionalLong startedUs) {
    return new ProcessStamp(host, pid, startedUs);
  }
}
