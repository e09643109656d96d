package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Every sum of wiring.md gives what the page says that it gives, to the last digit written. */
class WiringSumsTest {
  private static final List<String> HEADING = List.of("what", "sum", "gives");

  @TestFactory
  List<DynamicTest> everySumOnThePage() {
    List<DynamicTest> tests = new ArrayList<>();
    for (Page.Table table : Page.read("wiring.md").tables()) {
      if (table.heading().equals(HEADING)) {
        for (List<String> row : table.rows()) {
          tests.add(
              DynamicTest.dynamicTest(
                  table.section() + ": " + row.get(0), () -> check(row.get(1), row.get(2))));
        }
      }
    }
    assertThat(tests).hasSizeGreaterThan(80);
    return tests;
  }

  private static void check(String sum, String gives) {
    Amount worked = Sum.of(sum);
    Amount written = Sum.of(gives);
    assertThat(worked.isLike(written)).as("the unit of %s, which is %s", sum, worked).isTrue();
    assertThat(worked.value()).as(sum).isCloseTo(written.value(), within(halfOfLast(gives)));
  }

  /** Half of what the last digit counts: 0.05 mA of {@code 12.8 mA}. */
  private static double halfOfLast(String gives) {
    String[] parts = gives.split(" ", 2);
    int point = parts[0].indexOf('.');
    double digit = point < 0 ? 1 : Math.pow(10, point + 1.0 - parts[0].length());
    double unit = parts.length < 2 ? 1 : Amount.ofUnit(parts[1]).value();
    return digit * unit * 0.5000001;
  }

  @Test
  void sumsKnowTheirUnits() {
    assertThat(Sum.of("(12 V)^2 / 1 kohm").isLike(Sum.of("0.144 W"))).isTrue();
    assertThat(Sum.of("10 kohm x 5.6 / 15.6 x 1 nF").isLike(Sum.of("1 us"))).isTrue();
    assertThat(Sum.of("2 - 1 - 1").value()).isZero();
    assertThat(Sum.of("12 / 3 x 2").value()).isEqualTo(8);
    assertThatThrownBy(() -> Sum.of("12 V + 1 kohm")).hasMessageContaining("do not go together");
    assertThatThrownBy(() -> Sum.of("12 V / (3 ohm")).hasMessageContaining("missing");
    assertThatThrownBy(() -> Sum.of("ln(2 V)")).hasMessageContaining("do not go together");
    assertThatThrownBy(() -> check("12 V / 1 kohm", "12.1 mA")).isInstanceOf(AssertionError.class);
    assertThatThrownBy(() -> check("12 V / 1 kohm", "12 V")).hasMessageContaining("the unit of");
  }
}
