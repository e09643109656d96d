package cardproof.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

/** What was told to the writer is what a reader of the grammar gets back. */
class VcdProperties {
  private static final int WIDTH = 9;

  /** A new value of one variable, so long after the one before. */
  record Told(int variable, long afterNs, String digits) {}

  @Provide
  Arbitrary<List<Told>> story() {
    Arbitrary<String> digits =
        Arbitraries.strings().withChars("01x").ofLength(WIDTH).map(text -> text);
    return Combinators.combine(
            Arbitraries.integers().between(0, 2), Arbitraries.longs().between(0, 3), digits)
        .as(Told::new)
        .list()
        .ofMaxSize(60);
  }

  @Property(tries = 500)
  void everyValueComesBackWithAllItsDigits(@ForAll("story") List<Told> story) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    VcdWriter writer = new VcdWriter(out);
    writer.openScope("top");
    VcdVariable[] variables = new VcdVariable[3];
    String[] now = new String[3];
    List<TreeMap<Long, String>> expected =
        List.of(new TreeMap<>(), new TreeMap<>(), new TreeMap<>());
    for (int i = 0; i < variables.length; i++) {
      variables[i] = writer.declare(VcdKind.WIRE, "v" + i, WIDTH);
    }
    Arrays.fill(now, "x".repeat(WIDTH));
    writer.begin(0);
    long ns = 0;
    for (Told told : story) {
      ns += told.afterNs();
      writer.change(ns, variables[told.variable()], VcdValue.bits(told.digits()));
      expected.get(told.variable()).put(ns, told.digits());
    }
    writer.end(ns);
    VcdFile file = VcdReader.read(out.toString(StandardCharsets.US_ASCII));
    for (int i = 0; i < variables.length; i++) {
      VcdFile.Signal signal = file.signal("top.v" + i);
      for (long at = 0; at <= ns; at++) {
        var last = expected.get(i).floorEntry(at);
        assertThat(signal.at(at)).isEqualTo(last == null ? now[i] : last.getValue());
      }
    }
  }

  @Property
  void textIsThereLetterByLetter(@ForAll("words") String word) {
    String digits = VcdValue.text(word).digits();
    String padded = "0".repeat(8 * word.length() - digits.length()) + digits;
    StringBuilder letters = new StringBuilder();
    for (int at = 0; at < padded.length(); at += 8) {
      letters.append((char) Integer.parseInt(padded.substring(at, at + 8), 2));
    }
    assertThat(letters).hasToString(word);
  }

  @Provide
  Arbitrary<String> words() {
    return Arbitraries.strings().alpha().ofMinLength(1).ofMaxLength(12);
  }
}
