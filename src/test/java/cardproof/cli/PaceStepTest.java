package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

final class PaceStepTest {
  private static PaceStep step(String word, String load) {
    Map<String, String> drive = new LinkedHashMap<>();
    drive.put("D", word);
    drive.put("LD", load);
    return new PaceStep("any", drive, Map.of("D", 12, "LD", 1), Map.of());
  }

  /** A register whose load line falls together with its data may take either word. */
  @Test
  void aLineThatControlsComesToRestBeforeDataMoves() {
    List<PaceStep> ways = step("0x005", "1").waysTo(step("0x009", "0"));
    assertThat(ways)
        .extracting(way -> way.drive().get("D") + " " + way.drive().get("LD"))
        .containsExactly("0x005 0", "0x009 0");
    assertThat(step("0x005", "0").waysTo(step("0x005", "0"))).isEmpty();
  }
}
