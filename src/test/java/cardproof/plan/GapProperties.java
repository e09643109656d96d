package cardproof.plan;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Bus;
import cardproof.card.Card;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

/** The one pass against a plain look at all vectors, line by line. */
class GapProperties {
  private static final String CARD =
      """
      card: latch
      title: a word that is taken while LD is 1, and shown on a bus
      supply: {voltage: 12 V, limit: 1 A}
      inputs:
        A: {width: 4, at: J1.1-4}
        LD: {at: J1.5}
      outputs:
        Q: {width: 4, at: J2.1-4}
        N: {width: 2, at: J2.5-6}
      shared:
        D: {width: 4, at: J3.1-4}
      state:
        R: {width: 4, power-on: 0bxx00, next: "LD ? (A | D) : R"}
      behaviour:
        Q: R
        D: "LD ? 0 : R"
      limits: {settle: 100 ms}
      """;

  @Property(tries = 60)
  void everyGapIsOneAndNoneIsMissed(
      @ForAll @Size(min = 1, max = 8) List<@IntRange(max = 0x7FF) Integer> words) {
    StringBuilder steps = new StringBuilder();
    for (int word : words) {
      steps.append("  - drive: {A: ").append(word & 0xF);
      steps.append(", LD: ").append(word >> 4 & 1);
      steps.append(", D: ").append((word >> 9 & 1) != 0 ? "released" : word >> 5 & 0xF);
      steps.append("}\n").append((word >> 10) != 0 ? "    expect: {N: 0bx1}\n" : "");
    }
    Plan plan = TestPlans.read(CARD, steps.toString());
    List<Gap> gaps = TestPlans.check(plan).gaps();
    List<Vector> all = new ArrayList<>();
    plan.vectors().forEachRemaining(all::add);
    Card card = plan.card();
    for (int b = 0; b < card.buses().size(); b++) {
      Bus bus = card.buses().get(b);
      for (int bit = 0; bit < bus.width(); bit++) {
        assertThat(kinds(gaps, b, bit))
            .as("%s of%n%s", bus.lineName(bit), steps)
            .isEqualTo(plainly(all, bus, b, bit));
      }
    }
  }

  private static String kinds(List<Gap> gaps, int slot, int bit) {
    return gaps.stream()
        .filter(gap -> gap.slot() == slot && (gap.bits() >>> bit & 1) != 0)
        .map(gap -> gap.kind() + " " + gap.judged())
        .collect(Collectors.joining(", "));
  }

  private static String plainly(List<Vector> all, Bus bus, int b, int bit) {
    Predicate<Vector> driven1 = v -> (v.enabled()[b] & v.level()[b] & 1L << bit) != 0;
    Predicate<Vector> judged = v -> (v.care()[b] & 1L << bit) != 0;
    Predicate<Vector> is1 = judged.and(v -> (v.expect()[b] & 1L << bit) != 0);
    Predicate<Vector> is0 = judged.and(v -> (v.expect()[b] & 1L << bit) == 0);
    long count = all.stream().filter(judged).count();
    List<String> kinds = new ArrayList<>();
    if (bus.role().watched()) {
      if (count == 0) {
        kinds.add("NEVER_JUDGED 0");
      } else {
        if (all.stream().noneMatch(is1)) {
          kinds.add("NEVER_EXPECTED_1 " + all.size());
        }
        if (all.stream().noneMatch(is0)) {
          kinds.add("NEVER_EXPECTED_0 " + all.size());
        }
        boolean shared = bus.role().driven();
        if (shared
            && all.stream().anyMatch(is1)
            && all.stream().noneMatch(is1.and(driven1.negate()))) {
          kinds.add("ONLY_FIXTURE_DRIVES_1 " + all.size());
        }
      }
    }
    if (bus.role().driven()) {
      if (all.stream().noneMatch(driven1)) {
        kinds.add("NEVER_DRIVEN_1 " + all.size());
      }
      if (all.stream().allMatch(driven1)) {
        kinds.add("NEVER_DRIVEN_0 " + all.size());
      }
    }
    if (count > 0 && count < all.size()) {
      kinds.add("SOMETIMES_JUDGED " + count);
    }
    return String.join(", ", kinds);
  }
}
