package cardproof.conformance;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Prints how many cases of each section ran on each peer in the tests that ran last, and why others
 * were left out: {@code java -cp target/test-classes cardproof.conformance.Table}.
 */
final class Table {
  private static final String RUN = "run";
  private static final String FAILED = "failed";

  private record Line(String section, String name, String outcome) {}

  private Table() {}

  public static void main(String[] arguments) throws IOException {
    System.out.println(markdown(Tally.FOLDER));
  }

  static String markdown(Path folder) throws IOException {
    Map<String, List<Line>> peers = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(each -> each.toString().endsWith(".tsv")).toList()) {
        String peer = file.getFileName().toString().replace(".tsv", "");
        peers.put(peer, Files.readAllLines(file).stream().map(Table::line).toList());
      }
    }
    StringBuilder text = new StringBuilder("| section |");
    peers.keySet().forEach(peer -> text.append(' ').append(peer).append(" |"));
    text.append("\n|---|").append("---|".repeat(peers.size())).append('\n');
    Stream<String> sections =
        peers.values().stream().flatMap(List::stream).map(Line::section).distinct();
    sections.forEach(section -> row(text, section, peers, section));
    row(text, "all", peers, "");
    text.append('\n');
    peers.forEach((peer, lines) -> reasons(text, peer, lines));
    return text.toString();
  }

  private static Line line(String text) {
    String[] parts = text.split("\t");
    return new Line(parts[0], parts[1], parts[2]);
  }

  private static void row(
      StringBuilder text, String title, Map<String, List<Line>> peers, String section) {
    text.append("| ").append(title).append(" |");
    for (List<Line> lines : peers.values()) {
      List<Line> here = lines.stream().filter(each -> each.section.startsWith(section)).toList();
      long failed = count(here, FAILED);
      long out = here.size() - count(here, RUN) - failed;
      text.append(' ').append(count(here, RUN));
      text.append(out == 0 ? "" : " (" + out + " left out)");
      text.append(failed == 0 ? "" : " **" + failed + " failed**").append(" |");
    }
    text.append('\n');
  }

  private static long count(List<Line> lines, String outcome) {
    return lines.stream().filter(each -> each.outcome.equals(outcome)).count();
  }

  private static void reasons(StringBuilder text, String peer, List<Line> lines) {
    Map<String, Long> reasons =
        lines.stream()
            .map(Line::outcome)
            .filter(outcome -> !outcome.equals(RUN) && !outcome.equals(FAILED))
            .map(outcome -> outcome.replaceFirst("^left out: (Assumption failed: )?", ""))
            .collect(
                Collectors.groupingBy(each -> each, LinkedHashMap::new, Collectors.counting()));
    reasons.forEach(
        (reason, count) -> text.append("- %s, %d left out: %s\n".formatted(peer, count, reason)));
    lines.stream()
        .filter(each -> each.outcome.equals(FAILED))
        .forEach(
            each -> text.append("- %s, failed: %s, %s\n".formatted(peer, each.section, each.name)));
  }
}
