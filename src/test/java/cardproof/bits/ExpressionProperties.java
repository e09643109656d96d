package cardproof.bits;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.statistics.Statistics;

/** Random expressions against {@link Term}, the reference reading of the standard. */
class ExpressionProperties {
  private static final int FEW = 5;
  private static final int NOT_FILLED = -1;

  @Provide
  Arbitrary<Term> terms() {
    return Terms.any();
  }

  @Provide
  Arbitrary<Term> plainTerms() {
    return Terms.withoutSameness();
  }

  @Provide
  Arbitrary<List<Long>> words() {
    return Arbitraries.oneOf(Arbitraries.longs(), Arbitraries.of(0L, 1L, -1L, 0xFFFL))
        .list()
        .ofSize(Terms.LINES.size());
  }

  @Property(tries = 3000, edgeCases = EdgeCasesMode.NONE)
  void agreesWithTheReferenceOnKnownValues(
      @ForAll("terms") Term term,
      @ForAll("words") List<Long> words,
      @ForAll long layout,
      @ForAll boolean full,
      @ForAll @IntRange(min = 1, max = 64) int width) {
    Lines lines = build(words, 0, NOT_FILLED);
    String text = Layout.of(term, layout, full);

    assertThat(Expression.compile(text, lines).width()).as(text).isEqualTo(term.width());
    Optional<BigInteger> wanted = term.at(64, known(lines));
    Statistics.label("reference").collect(wanted.isPresent() ? "known" : "x");
    wanted.ifPresent(
        value ->
            assertThat(lines.result(text, width))
                .as(text)
                .isEqualTo(new Literal(value.longValue() & Words.mask(width), 0, width)));
    Statistics.label("reference").coverage(shares -> shares.check("known").percentage(p -> p > 45));
  }

  /** What is known with some bits x must be so however those bits are filled in. */
  @Property(tries = 3000, edgeCases = EdgeCasesMode.NONE)
  void neverClaimsToKnowWhatAFillingDenies(
      @ForAll("plainTerms") Term term,
      @ForAll("words") List<Long> words,
      @ForAll long layout,
      @ForAll long unknownBits) {
    Lines lines = build(words, unknownBits, NOT_FILLED);
    String text = Layout.of(term, layout, false);
    Literal result = lines.result(text, 64);

    boolean partly = result.unknown() != 0 && result.unknown() != -1L;
    Statistics.label("result").collect(partly ? "partly x" : result.unknown() == 0 ? "known" : "x");
    for (int filling = 0; filling < 1 << FEW; filling++) {
      Lines filled = build(words, unknownBits, filling);
      Literal concrete = filled.result(text, 64);
      long claimed = ~result.unknown();
      assertThat(concrete.unknown() & claimed).as("%s filled with %s", text, filling).isZero();
      assertThat(concrete.value() & claimed)
          .as("%s filled with %s", text, filling)
          .isEqualTo(result.value());
    }
    Statistics.label("result").coverage(shares -> shares.check("partly x").percentage(p -> p > 5));
  }

  /** Scatters up to {@link #FEW} x over the lines; a filling of 0 or more puts its bits there. */
  private static Lines build(List<Long> words, long unknownBits, int filling) {
    long[] values = words.stream().mapToLong(Long::longValue).toArray();
    long[] unknown = new long[values.length];
    for (int index = 0; index < FEW && unknownBits != 0; index++) {
      int spot = (int) (unknownBits >>> 12 * index & 0xFFF);
      int line = spot % values.length;
      long bit = 1L << spot / values.length % Terms.LINES.get(line).width();
      if (filling == NOT_FILLED) {
        unknown[line] |= bit;
      } else if ((unknown[line] & bit) == 0) {
        unknown[line] |= bit;
        values[line] = (filling >> index & 1) != 0 ? values[line] | bit : values[line] & ~bit;
      }
    }
    Lines lines = new Lines();
    for (int line = 0; line < values.length; line++) {
      int width = Terms.LINES.get(line).width();
      long x = filling == NOT_FILLED ? unknown[line] : 0;
      lines.with(
          Terms.LINES.get(line).name(),
          new Literal(values[line] & Words.mask(width) & ~x, x, width));
    }
    return lines;
  }

  private static Map<String, BigInteger> known(Lines lines) {
    Map<String, BigInteger> known = new HashMap<>();
    for (String name : lines.names()) {
      String digits = Long.toUnsignedString(lines.values().value(lines.slotOf(name)));
      known.put(name, new BigInteger(digits));
    }
    return known;
  }
}
