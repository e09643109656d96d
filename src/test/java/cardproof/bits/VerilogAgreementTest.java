package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Expressions against Icarus Verilog, a simulator for IEEE 1364-2005 made by others: every bit of
 * every result, 0, 1 and x. {@code -Dagreement.seed=} repeats a run.
 */
class VerilogAgreementTest {
  private static final int TOGETHER = 1000;
  private static final int SHOWN = 3;
  private static final String SEED = "agreement.seed";

  @TempDir Path directory;

  @BeforeAll
  static void onlyWhereThereIsASimulator() {
    VerilogSimulator.assumeInstalled();
  }

  @Test
  void agreesOnTenThousandExpressions() throws Exception {
    agrees(10_000, Long.getLong(SEED, 1364));
  }

  @Test
  @Tag("long")
  void agreesOnAHundredThousandOthersEachTime() throws Exception {
    agrees(100_000, Long.getLong(SEED, System.nanoTime()));
  }

  private void agrees(int expressions, long seed) throws IOException, InterruptedException {
    System.out.println(expressions + " expressions against Verilog, -D" + SEED + "=" + seed);
    VerilogSimulator simulator = new VerilogSimulator(directory);
    List<String> differences = new ArrayList<>();
    int withX = 0;
    for (long trial : new Random(seed).longs(expressions / TOGETHER).toArray()) {
      VerilogTrial.Outcome outcome = new VerilogTrial(trial, TOGETHER).run(simulator);
      differences.addAll(outcome.differences());
      withX += outcome.withX();
    }
    differences.sort(Comparator.comparingInt(String::length));
    assertThat(differences.stream().limit(SHOWN))
        .as("the shortest of %d differences, seed %d", differences.size(), seed)
        .isEmpty();
    assertThat(withX / (double) (VerilogTrial.SETS * expressions))
        .as("share of results with an x")
        .isBetween(0.2, 0.6);
  }

  /** Decimals as Verilog's own, unsized and signed, where they count places. */
  @ParameterizedTest(name = "{0}")
  @ValueSource(
      strings = {
        "1 << 1 + 1",
        "1 << i + 1",
        "2 ** (i + 1)",
        "A[i + 1 +: 4]",
        "A[i - 1]",
        "A[i - 4 -: 4]",
        "B[3 + 8]",
        "B[8 + 3 : 2 + 2 + 4]",
        "{1 + 1{i}}",
        "A >> i * 2"
      })
  void plainDecimalsCountPlacesAsTheyDoThere(String text) throws Exception {
    Lines lines = new Lines().with("A", "0xFFF").with("B", "0x801").with("i", "0b111");
    String source =
        "module trial; reg [11:0] A, B; reg [2:0] i; reg [63:0] result; initial begin"
            + " A = 12'hFFF; B = 12'h801; i = 7; result = %s; $displayb(result); end endmodule";

    assertThat(new VerilogSimulator(directory).run(source.formatted(text)))
        .containsExactly(Lines.bits(lines.result(text, Words.MAX_WIDTH)));
  }
}
