package cardproof.bits;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Collectors;

/** Some expressions, each evaluated for a few sets of line values here and by the simulator. */
final class VerilogTrial {
  /** Values of the lines: all known, then with more and more x. */
  static final int SETS = 4;

  private record Pair(String ours, String verilog) {}

  /**
   * @param withX how many results held an x
   * @param differences a few lines of text for each
   */
  record Outcome(int withX, List<String> differences) {}

  private final List<Lines> sets = new ArrayList<>();
  private final List<Pair> pairs = new ArrayList<>();

  VerilogTrial(long seed, int expressions) {
    Random random = new Random(seed);
    RandomTerms terms = new RandomTerms(random);
    for (int set = 0; set < SETS; set++) {
      sets.add(RandomLines.of(random, set));
    }
    for (int index = 0; index < expressions; index++) {
      Term term = terms.next();
      long layout = random.nextLong();
      boolean full = random.nextInt(4) == 0;
      String ours = Layout.of(term, layout, full).strip();
      Term verilog = Verilog.of(term);
      pairs.add(new Pair(ours, Layout.withSinglePrefixes(verilog, layout, full).strip()));
    }
  }

  Outcome run(VerilogSimulator simulator) throws IOException, InterruptedException {
    List<String> printed = simulator.run(source());
    if (printed.size() != SETS * pairs.size()) {
      throw new IllegalStateException(printed.size() + " results, not " + SETS * pairs.size());
    }
    int withX = 0;
    List<String> differences = new ArrayList<>();
    for (int index = 0; index < printed.size(); index++) {
      Lines lines = sets.get(index / pairs.size());
      Pair pair = pairs.get(index % pairs.size());
      String theirs = printed.get(index);
      withX += theirs.contains("x") ? 1 : 0;
      difference(pair, lines, theirs).ifPresent(differences::add);
    }
    return new Outcome(withX, differences);
  }

  /** One module; every result is assigned to 64 bits and printed as so many binary digits. */
  private String source() {
    StringBuilder text = new StringBuilder("module trial;\n");
    for (Term.Line line : RandomTerms.LINES) {
      String bits = "[" + (line.width() - 1) + ":0] ";
      text.append("reg ").append(bits).append(Verilog.name(line.name())).append(";\n");
    }
    text.append("reg [63:0] result;\ninteger set;\n");
    text.append("initial for (set = 0; set < " + SETS + "; set = set + 1) begin\n");
    for (int set = 0; set < SETS; set++) {
      text.append("if (set == ").append(set).append(") begin\n");
      Lines lines = sets.get(set);
      for (String name : lines.names()) {
        String bits = lines.widthOf(lines.slotOf(name)) + "'b" + lines.bits(name);
        text.append(Verilog.name(name)).append(" = ").append(bits).append(";\n");
      }
      text.append("end\n");
    }
    for (Pair pair : pairs) {
      text.append("result = ").append(pair.verilog()).append(";\n$displayb(result);\n");
    }
    return text.append("end\nendmodule\n").toString();
  }

  private static Optional<String> difference(Pair pair, Lines lines, String theirs) {
    String ours = Lines.bits(lines.result(pair.ours(), Words.MAX_WIDTH));
    if (ours.equals(theirs)) {
      return Optional.empty();
    }
    String values =
        lines.names().stream()
            .map(name -> name + "=" + lines.bits(name))
            .collect(Collectors.joining(" "));
    return Optional.of(
        String.join(
            "\n  ",
            "a difference:",
            "ours    " + pair.ours(),
            "Verilog " + pair.verilog(),
            "with    " + values,
            "ours    " + ours,
            "Verilog " + theirs));
  }
}
