package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class PresenceTest {
  private static final long MS = 1_000_000;
  private static final long SLICE_NS = 50 * MS;

  private long ns = -5;
  private long wallMs = 1_764_000_000_000L;
  private final Presence presence = new Presence(() -> ns, () -> wallMs);

  private void pass(long monotonicMs, long calendarMs) {
    ns += monotonicMs * MS;
    wallMs += calendarMs;
  }

  @Test
  void whoLooksOftenWasThere() {
    assertThat(presence.look(SLICE_NS)).isFalse();
    for (int i = 0; i < 100; i++) {
      pass(60, 60);
      assertThat(presence.look(SLICE_NS)).isFalse();
    }
    assertThat(presence.absenceMs()).isZero();
  }

  @Test
  void aStoppedProgramMissesTimeOnBothClocks() {
    presence.look(SLICE_NS);
    pass(4050, 4050);
    assertThat(presence.look(SLICE_NS)).isTrue();
    assertThat(presence.absenceMs()).isEqualTo(4000);
  }

  /** CLOCK_MONOTONIC does not count while a Linux machine is suspended (clock_gettime(2)). */
  @Test
  void aComputerThatSleptMissesItOnTheCalendarAlone() {
    presence.look(SLICE_NS);
    pass(50, 3_600_050);
    assertThat(presence.look(SLICE_NS)).isTrue();
    assertThat(presence.absenceMs()).isEqualTo(3_600_000);
  }

  @Test
  void aWaitOnPurposeIsNone() {
    presence.look(SLICE_NS);
    pass(60_000, 60_000);
    assertThat(presence.look(Long.MAX_VALUE)).isFalse();
    assertThat(presence.absenceMs()).isZero();
  }

  @Test
  void whatIsLongAgoExplainsNothing() {
    presence.look(SLICE_NS);
    pass(2000, 2000);
    presence.look(SLICE_NS);
    for (int i = 0; i < 60; i++) {
      pass(100, 100);
      presence.look(SLICE_NS);
    }
    assertThat(presence.absenceMs()).isZero();
  }
}
