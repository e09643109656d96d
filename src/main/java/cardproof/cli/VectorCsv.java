package cardproof.cli;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.plan.Vector;
import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.List;

/**
 * Vectors as a table, comma-separated by RFC 4180: a header, CRLF, quotes where they are needed.
 */
final class VectorCsv implements VectorFormat {
  private final Card card;
  private final Writer out;

  VectorCsv(Card card, Writer out) {
    this.card = card;
    this.out = out;
  }

  @Override
  public void begin() throws IOException {
    List<String> names = new ArrayList<>(List.of("vector", "at", "title", "phase"));
    for (Bus bus : card.buses()) {
      if (bus.role().driven()) {
        names.add("drive " + bus.name());
      }
    }
    for (Bus bus : card.buses()) {
      if (bus.role().watched()) {
        names.add("expect " + bus.name());
      }
    }
    names.addAll(List.of("still", "settle_us", "quiet_us", "watch_us", "audit"));
    row(names);
  }

  @Override
  public void add(Vector vector, boolean audit) throws IOException {
    List<String> cells = new ArrayList<>();
    cells.add(Long.toString(vector.number() + 1));
    cells.add(vector.origin());
    cells.add(vector.step().title());
    cells.add(vector.phase().words());
    for (int b = 0; b < card.buses().size(); b++) {
      if (card.buses().get(b).role().driven()) {
        cells.add(VectorWords.driven(vector, b));
      }
    }
    for (int b = 0; b < card.buses().size(); b++) {
      if (card.buses().get(b).role().watched()) {
        cells.add(VectorWords.expected(vector, b));
      }
    }
    cells.add(String.join(" ", VectorWords.still(vector)));
    cells.add(Long.toString(vector.timing().longestLimitUs()));
    cells.add(Long.toString(vector.timing().quietUs()));
    cells.add(Long.toString(vector.timing().watchUs()));
    cells.add(audit ? "1" : "0");
    row(cells);
  }

  @Override
  public void end() {}

  private void row(List<String> cells) throws IOException {
    for (int i = 0; i < cells.size(); i++) {
      if (i > 0) {
        out.write(',');
      }
      out.write(quoted(cells.get(i)));
    }
    out.write("\r\n");
  }

  /** RFC 4180, section 2, rules 6 and 7. */
  static String quoted(String cell) {
    boolean plain =
        cell.indexOf(',') < 0
            && cell.indexOf('"') < 0
            && cell.indexOf('\r') < 0
            && cell.indexOf('\n') < 0;
    return plain ? cell : '"' + cell.replace("\"", "\"\"") + '"';
  }
}
