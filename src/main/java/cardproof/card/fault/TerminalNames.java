package cardproof.card.fault;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/**
 * The names that a terminal goes by: its own, and on a relay the marking on the socket (EN 50005,
 * IEC 60947-1: coil A1 and A2; of contacts the second digit is 1 for the common, 2 for the normally
 * closed, 4 for the normally open terminal, and the first digit is the pole). On a relay of which
 * one pole is wired the pole may be left out; the ends of a diode are also A and K.
 */
final class TerminalNames {
  private static final Pattern MARKING = Pattern.compile("([1-9])([124])");

  private TerminalNames() {}

  /** Index in {@link Part#terminals}; case does not matter. */
  static Optional<Integer> index(Part part, String written) {
    String name = written.toLowerCase(Locale.ROOT);
    List<Terminal> terminals = part.terminals();
    return IntStream.range(0, terminals.size())
        .filter(t -> terminals.get(t).name().equals(name))
        .boxed()
        .findFirst()
        .or(() -> otherwise(part, name));
  }

  private static Optional<Integer> otherwise(Part part, String name) {
    if (part instanceof Relay relay) {
      return relay(relay, name);
    }
    if (part instanceof Diode) {
      return name.equals("a") ? Optional.of(0) : name.equals("k") ? Optional.of(1) : none();
    }
    return none();
  }

  private static Optional<Integer> relay(Relay relay, String name) {
    if (name.equals("a1") || name.equals("a2")) {
      return Optional.of(name.charAt(1) - '1');
    }
    Matcher marking = MARKING.matcher(name);
    if (marking.matches()) {
      int pole = Integer.parseInt(marking.group(1)) - 1;
      int function = "142".indexOf(marking.group(2));
      return pole < relay.poles().size() ? Optional.of(terminal(pole, function)) : none();
    }
    int function = List.of("com", "no", "nc").indexOf(name);
    List<Integer> wired =
        IntStream.range(0, relay.poles().size())
            .filter(p -> isWired(relay.poles().get(p)))
            .boxed()
            .toList();
    return function >= 0 && wired.size() == 1
        ? Optional.of(terminal(wired.get(0), function))
        : none();
  }

  private static int terminal(int pole, int function) {
    return Relay.COIL_TERMINALS + Relay.POLE_TERMINALS * pole + function;
  }

  private static boolean isWired(Pole pole) {
    return pole.com() != Terminal.NOT_WIRED
        || pole.no() != Terminal.NOT_WIRED
        || pole.nc() != Terminal.NOT_WIRED;
  }

  private static Optional<Integer> none() {
    return Optional.empty();
  }
}
