package cardproof.files;

import cardproof.card.wiring.Relay;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What people write for a terminal. A relay's are {@code coil1 coil2 com1 no1 nc1 com2 ...}; the
 * number of the pole may be left out for the first. Beside those stand the markings printed on
 * sockets (EN 50005, IEC 60947-1): {@code A1 A2} for the coil, then the number of the pole followed
 * by 1 for the common, 2 for the normally closed and 4 for the normally open contact. {@code A} and
 * {@code K} stand for anode and cathode (common practice).
 */
final class TerminalNames {
  private static final Pattern MARKING = Pattern.compile("([1-9])([124])");
  private static final Pattern FIRST_POLE = Pattern.compile("com|no|nc");
  private static final List<String> BY_MARKING = List.of("", "com", "nc", "", "no");

  private TerminalNames() {}

  /** The name that a relay's terminal has here; empty where no relay has such a terminal. */
  static Optional<String> ofRelay(String written, int poles) {
    String name = written.strip().toLowerCase(Locale.ROOT);
    Matcher marking = MARKING.matcher(name);
    if (name.matches("a[12]")) {
      name = "coil" + name.charAt(1);
    } else if (marking.matches()) {
      name = BY_MARKING.get(Integer.parseInt(marking.group(2))) + marking.group(1);
    } else if (FIRST_POLE.matcher(name).matches()) {
      name = name + "1";
    }
    return Optional.of(name).filter(found -> relayTerminals(poles).contains(found));
  }

  /** The name that a diode's terminal has here. */
  static Optional<String> ofDiode(String written) {
    return switch (written.strip().toLowerCase(Locale.ROOT)) {
      case "anode", "a" -> Optional.of("anode");
      case "cathode", "k" -> Optional.of("cathode");
      default -> Optional.empty();
    };
  }

  /** Names of a relay's terminals in the order of {@link Relay#terminals}. */
  static List<String> relayTerminals(int poles) {
    String[] names = new String[Relay.COIL_TERMINALS + Relay.POLE_TERMINALS * poles];
    names[0] = "coil1";
    names[1] = "coil2";
    for (int p = 0; p < poles; p++) {
      int first = Relay.COIL_TERMINALS + Relay.POLE_TERMINALS * p;
      names[first] = "com" + (p + 1);
      names[first + 1] = "no" + (p + 1);
      names[first + 2] = "nc" + (p + 1);
    }
    return List.of(names);
  }
}
