package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.BitSet;
import org.junit.jupiter.api.Test;

class ExpressionTest {
  private static final Lines SUM =
      new Lines().with("A", "0x123").with("B", "0x0F0").with("CI", "1").with("hold.Q", "0xFFF");

  @Test
  void tellsWhatItReads() {
    BitSet slots = Expression.compile("A + A[3:0] + hold.Q[CI]", SUM).slots();

    assertThat(slots.stream()).containsExactly(0, 2, 3);
    assertThat(Expression.compile("1 + 2", SUM).slots().isEmpty()).isTrue();
  }

  @Test
  void whatACallerDoesToTheSlotsStaysThere() {
    Expression expression = Expression.compile("A", SUM);
    expression.slots().clear();

    assertThat(expression.slots().get(0)).isTrue();
  }

  @Test
  void keepsItsText() {
    Expression expression = Expression.compile(" A+B ", SUM);

    assertThat(expression.text()).isEqualTo(" A+B ");
    assertThat(expression).hasToString(" A+B ");
  }

  @Test
  void mayWriteWhereItReads() {
    Values values = SUM.values();
    Expression.compile("A + 1", SUM).evaluate(values, values, 0, 12);

    assertThat(values.value(0)).isEqualTo(0x124);
    assertThat(values.value(1)).isEqualTo(0x0F0);
  }

  @Test
  void startsAfreshForEachVector() {
    Expression expression = Expression.compile("A / B + (CI ? 5 : 6)", SUM);
    Values values = SUM.values();
    Values out = new Values(1);
    values.set(1, 0, 0);
    expression.evaluate(values, out, 0, 12);
    assertThat(out.unknown(0)).isEqualTo(0xFFF);

    values.set(1, 0x010, 0);
    expression.evaluate(values, out, 0, 12);
    assertThat(out.value(0)).isEqualTo(0x12 + 5);
    assertThat(out.unknown(0)).isZero();
  }

  @Test
  void allocatesNothingPerVector() {
    String everything =
        "(A + B + CI) >> 12 | (A * B / (CI + 1) % 7 ** CI) & {2{A[CI +: 3], ~B[3:0]}}"
            + " ^ (A < B && !CI || A === B ? -A : ^B) ~^ (&A == ~|B) << hold.Q[1:0]";
    Expression expression = Expression.compile(everything, SUM);
    Values values = SUM.values();
    Values out = new Values(1);
    ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
    long own = Thread.currentThread().getId();
    evaluate(expression, values, out, 1000);
    long before = threads.getThreadAllocatedBytes(own);
    evaluate(expression, values, out, 100_000);
    long bytes = threads.getThreadAllocatedBytes(own) - before;

    // the measurement itself may cost a few objects; one object a vector would be 1.6 MB
    assertThat(bytes).isLessThan(10_000);
  }

  private static void evaluate(Expression expression, Values values, Values out, int times) {
    for (int time = 0; time < times; time++) {
      values.set(0, time, time & 64);
      expression.evaluate(values, out, 0, 24);
    }
  }
}
