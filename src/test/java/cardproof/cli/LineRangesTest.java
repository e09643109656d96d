package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class LineRangesTest {
  @Test
  void joinsNeighboursOfOneBusOnly() {
    assertThat(LineRanges.of(List.of("CI", "S[0]", "S[1]", "S[2]", "S[4]", "D[5]", "D[6]", "CO")))
        .isEqualTo("CI, S[0] to S[2], S[4], D[5] to D[6], CO");
    assertThat(LineRanges.of(List.of("S[1]", "S[0]"))).isEqualTo("S[1], S[0]");
    assertThat(LineRanges.of(List.of("A", "A1"))).isEqualTo("A, A1");
    assertThat(LineRanges.of(List.of())).isEmpty();
  }
}
