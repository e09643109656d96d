package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Pin;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Where the lines of a bus leave the card: {@code J1.1-12}, {@code J1.12-1}, {@code [J1.1-6,
 * J2.1-6]} or {@code 'J4.1, J4.3'}. The first pin is bit 0's.
 */
final class PinReader {
  static final String PINS = "[A-Za-z][A-Za-z0-9_-]*\\.\\d{1,4}(?:-\\d{1,4})?";

  private static final Pattern PART =
      Pattern.compile("([A-Za-z][A-Za-z0-9_-]*)\\.(\\d{1,4})(?:-(\\d{1,4}))?");
  private static final String WANTED = "pins such as J1.1-12, J1.12-1, J3.1 or [J1.1-6, J2.1-6]";

  private final Problems problems;

  PinReader(Problems problems) {
    this.problems = problems;
  }

  /** At least one pin and at most 64, none twice; empty, with a problem said, where that fails. */
  Optional<List<Pin>> read(Node node) {
    List<Pin> pins = new ArrayList<>();
    List<Node> parts = node instanceof Node.Listing list ? list.items() : List.of(node);
    boolean good = !parts.isEmpty();
    if (!good) {
      problems.error(node.at(), "'at' is an empty list", WANTED, "");
    }
    for (Node part : parts) {
      Optional<Node.Text> text = new Texts(problems).text(part, "at", WANTED);
      good &= text.isPresent() && addAll(text.get(), pins);
    }
    return good ? Optional.of(List.copyOf(pins)) : Optional.empty();
  }

  private boolean addAll(Node.Text text, List<Pin> pins) {
    for (String part : text.text().split(",", -1)) {
      Matcher form = PART.matcher(part.strip());
      if (!form.matches()) {
        String full = "\\s*([^.,\\s]+)\\.\\d+-\\1\\.(\\d+)\\s*";
        Matcher twice = Pattern.compile(full).matcher(part);
        return refuse(
            text,
            Node.Text.quote(part.strip()) + " names no pins",
            WANTED,
            twice.matches() ? "Name the connector once, as in J1.1-12" : "");
      }
      int first = Integer.parseInt(form.group(2));
      int last = form.group(3) == null ? first : Integer.parseInt(form.group(3));
      if (first == 0 || last == 0) {
        return refuse(text, "pin 0 in " + Node.Text.quote(part.strip()), "pins counted from 1", "");
      }
      if (pins.size() + Math.abs(last - first) + 1 > Bus.WIDEST) {
        return refuse(
            text, "more than 64 pins", "at most 64 lines in a bus", "Divide it into two buses");
      }
      for (int number = first; ; number += last < first ? -1 : 1) {
        Pin pin = new Pin(form.group(1), number);
        if (pins.contains(pin)) {
          return refuse(text, "pin " + pin + " twice in one bus", "every line on its own pin", "");
        }
        pins.add(pin);
        if (number == last) {
          break;
        }
      }
    }
    return true;
  }

  private boolean refuse(Node.Text text, String found, String wanted, String next) {
    problems.error(text.at(), found, wanted, next);
    return false;
  }
}
