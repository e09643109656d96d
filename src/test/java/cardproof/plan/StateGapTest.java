package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class StateGapTest {
  private static final String CARD =
      """
      card: pair
      title: two words of which one follows the other
      supply: {voltage: 12 V, limit: 1 A}
      inputs:
        A: {width: 4, at: J1.1-4}
        LD: {at: J1.5}
      outputs:
        Q: {width: 4, at: J2.1-4}
      state:
        R: {width: 4, power-on: POWER, next: "NEXT"}
      behaviour:
        Q: R
      limits: {settle: 100 ms}
      """;

  private static List<String> gaps(String powerOn, String next, String steps) {
    String card = CARD.replace("POWER", powerOn).replace("NEXT", next);
    return TestPlans.check(TestPlans.read(card, steps)).gaps().stream()
        .filter(gap -> gap.name().equals("R"))
        .map(gap -> gap.kind() + " " + Long.toBinaryString(gap.bits()))
        .toList();
  }

  @Test
  void aStateThatIsLoadedIsEstablished() {
    String steps = "  - drive: {A: 5, LD: 0}\n    pulse: {LD: 1}\n";
    assertThat(gaps("0", "LD ? A : R", steps)).isEmpty();
    assertThat(gaps("0bxxxx", "LD ? A : R", steps)).isEmpty();
  }

  @Test
  void aStateThatIsNeverLoadedIsKnownFromPowerOnAlone() {
    String steps = "  - drive: {A: 5, LD: 0}\n";
    assertThat(gaps("0", "LD ? A : R", steps)).containsExactly("STATE_NEVER_ESTABLISHED 1111");
    assertThat(gaps("0bxx00", "LD ? A : R", steps))
        .containsExactly("STATE_NEVER_KNOWN 1100", "STATE_NEVER_ESTABLISHED 11");
  }

  @Test
  void bitsAreEstablishedOneByOne() {
    String steps = "  - drive: {A: 0b0001, LD: 0}\n  - drive: {A: 0b0100}\n";
    assertThat(gaps("0", "R | A", steps)).containsExactly("STATE_NEVER_ESTABLISHED 1010");
  }
}
