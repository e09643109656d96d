package cardproof.files.draft;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What the names and widths of a card's lines suggest. A guess, and written down as one: common
 * practice calls the line that loads a register LD, LOAD or WR.
 */
final class CardGuess {
  private static final List<String> LOADS = List.of("ld", "load", "wr", "write", "set", "en");

  private CardGuess() {}

  /** {@code LD ? D : R}, where a single line and a bus of the state's width are there for it. */
  static Optional<String> next(
      String state,
      List<BusAnswer> states,
      Collection<BusAnswer> inputs,
      Collection<BusAnswer> shared) {
    int width =
        states.stream()
            .filter(s -> s.name().equals(state))
            .findFirst()
            .map(BusAnswer::lines)
            .orElse(1);
    List<String> single = inputs.stream().filter(i -> i.lines() == 1).map(BusAnswer::name).toList();
    Optional<String> load = load(single);
    return load.flatMap(
        line ->
            Stream.concat(inputs.stream(), shared.stream())
                .filter(bus -> bus.lines() == width && !bus.name().equals(line))
                .findFirst()
                .map(bus -> line + " ? " + bus.name() + " : " + state));
  }

  /** The line that most likely loads something: the one with the plainest name, or any other. */
  static Optional<String> load(Collection<String> singleLines) {
    return singleLines.stream().min(Comparator.comparingInt(CardGuess::rank));
  }

  private static int rank(String name) {
    String plain = name.toLowerCase(Locale.ROOT);
    for (int i = 0; i < LOADS.size(); i++) {
      if (plain.startsWith(LOADS.get(i))) {
        return i;
      }
    }
    return LOADS.size();
  }

  /** The state that an output shows: outputs and states of one width, each in its order. */
  static Optional<String> output(String output, List<BusAnswer> outputs, List<BusAnswer> states) {
    List<BusAnswer> free = new ArrayList<>(states);
    for (BusAnswer bus : outputs) {
      Optional<BusAnswer> match =
          free.stream().filter(state -> state.lines() == bus.lines()).findFirst();
      match.ifPresent(free::remove);
      if (bus.name().equals(output)) {
        return match.map(BusAnswer::name);
      }
    }
    return Optional.empty();
  }
}
