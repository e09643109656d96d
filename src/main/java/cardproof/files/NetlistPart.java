package cardproof.files;

import cardproof.card.wiring.Terminal;
import cardproof.text.Nearest;
import cardproof.text.Position;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A reference of a netlist with the rows that were read for it. */
final class NetlistPart {
  private final String name;
  private final NetKind kind;
  private final Position at;
  private final Map<String, CsvRow> rows = new HashMap<>();
  private boolean spoiled;

  NetlistPart(String name, NetKind kind, Position at) {
    this.name = name;
    this.kind = kind;
    this.at = at;
  }

  /** Takes a row; says so where the part has no such pin, or has it already. */
  void take(CsvRow row, Problems problems) {
    Optional<String> terminal = kind.terminal(row.pin());
    if (terminal.isEmpty()) {
      spoiled = true;
      problems.error(
          row.at(),
          name + " is " + kind.words() + ", which has no pin '" + row.pin() + "'",
          "one of " + wanted(),
          Nearest.to(row.pin(), kind.terminals())
              .map(near -> "Did you mean '" + near + "'?")
              .orElse(""));
      return;
    }
    CsvRow first = rows.putIfAbsent(terminal.get(), row);
    if (first != null) {
      problems.error(
          row.at(),
          "pin "
              + terminal.get()
              + " of "
              + name
              + " a second time; the first is in line "
              + first.at().line(),
          "every pin once",
          first.net().equals(row.net())
              ? "Take one of the rows out"
              : "A pin is on one net, and these say " + first.net() + " and " + row.net());
    }
  }

  /** A row of it was refused, so that it must not be missed as well. */
  void spoil() {
    spoiled = true;
  }

  private String wanted() {
    List<String> names = kind.terminals();
    return names.size() <= 5
        ? String.join(", ", names)
        : String.join(", ", names.subList(0, 5))
            + " and so on to "
            + names.get(names.size() - 1)
            + ", or the socket's markings A1, A2, 11, 14, 12 and so on";
  }

  /** Makes the part; says so where it is not complete. */
  void make(Assembly assembly, Problems problems) {
    if (spoiled) {
      return;
    }
    int[] nets = new int[kind.terminals().size()];
    Arrays.fill(nets, Terminal.NOT_WIRED);
    boolean complete = true;
    for (int t = 0; t < nets.length; t++) {
      String terminal = kind.terminals().get(t);
      CsvRow row = rows.get(terminal);
      if (row != null && !row.net().isEmpty()) {
        nets[t] = assembly.net(row.net(), row.at());
      } else if (t < kind.needed()) {
        complete = false;
        problems.error(
            at,
            "no row says which net " + terminal + " of " + name + " is on",
            "a row for each end, as " + name + " is " + kind.words(),
            "");
      }
    }
    if (complete && nets[0] == nets[1]) {
      problems.error(
          at, "both ends of " + name + " are on one net", "two nets, as it is " + kind.words(), "");
    } else if (complete) {
      assembly.add(kind.maker().part(name, nets, at));
    }
  }
}
