package cardproof.files;

import cardproof.card.wiring.Spot;
import cardproof.text.Position;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** Where names are looked up while parts are spelled out: the card, or one use of a block. */
final class Place {
  private final Assembly assembly;
  private final String path;
  private final Map<String, Optional<String>> ports;
  private final Optional<Spot> origin;

  private Place(
      Assembly assembly, String path, Map<String, Optional<String>> ports, Optional<Spot> origin) {
    this.assembly = assembly;
    this.path = path;
    this.ports = ports;
    this.origin = origin;
  }

  /** The card itself, where no name is looked up anywhere else. */
  static Place card(Assembly assembly) {
    return new Place(assembly, "", Map.of(), Optional.empty());
  }

  /**
   * A use of a block.
   *
   * @param fullName its name
   * @param bound nets that its ports are, by full name; empty for those that have none for a reason
   *     that was said
   */
  Place use(String fullName, Map<String, Optional<String>> bound, Optional<Spot> at) {
    return new Place(assembly, fullName, bound, at);
  }

  Assembly assembly() {
    return assembly;
  }

  String fullName(String name) {
    return path.isEmpty() ? name : path + "." + name;
  }

  /** A spot counted from where the use sits. */
  Spot spot(Spot within) {
    return origin
        .map(from -> new Spot(from.xMm() + within.xMm(), from.yMm() + within.yMm()))
        .orElse(within);
  }

  /** Takes a reference for a part or a use; false, with a problem said, where it is taken. */
  boolean claim(String fullName, IndexText name, RepeatValues values) {
    Optional<Position> first = assembly.claim(fullName, name.at());
    first.ifPresent(
        taken ->
            error(
                name.at(),
                taken.equals(name.at())
                    ? "the reference " + fullName + " comes of this entry twice"
                    : "the reference "
                        + fullName
                        + " a second time; the first is in line "
                        + taken.line(),
                "a reference of its own for every part and every use of a block",
                "Rename one of them",
                values));
    return first.isEmpty();
  }

  /**
   * The full name of a net.
   *
   * @return empty where it is a port that has no net, for a reason that was said
   */
  Optional<String> netName(IndexText text, RepeatValues values) {
    String suffix = text.suffix(values);
    Optional<String> bound = ports.get(text.base());
    if (bound != null) {
      return bound.map(outside -> outside + suffix);
    }
    boolean own = !path.isEmpty() && !assembly.everywhere(text.base(), suffix);
    return Optional.of(own ? path + "." + text.base() + suffix : text.base() + suffix);
  }

  /** The number of a net; empty, with a problem said, where it cannot be. */
  OptionalInt net(IndexText text, RepeatValues values) {
    try {
      Optional<String> name = netName(text, values);
      return name.isEmpty() || !isNet(name.get(), text, values)
          ? OptionalInt.empty()
          : OptionalInt.of(assembly.net(name.get(), text.at()));
    } catch (IndexException without) {
      error(
          text.at(),
          text.text().described() + " " + without.getMessage(),
          "an index from 0 up",
          "",
          values);
      return OptionalInt.empty();
    }
  }

  /** Whether a full name may be a net; says so where the card has no such line. */
  boolean isNet(String name, IndexText text, RepeatValues values) {
    Optional<String> why = assembly.lines().refusal(name);
    why.ifPresent(
        reason ->
            error(
                text.at(),
                (name.equals(text.text().text().strip())
                        ? ""
                        : text.text().described() + " is " + name + ", and ")
                    + reason,
                "a line of the card, or a net with a name of its own",
                "",
                values));
    return why.isEmpty();
  }

  void error(Position at, String found, String wanted, String next, RepeatValues values) {
    String repeat = values.toString();
    String where =
        path.isEmpty() && repeat.isEmpty()
            ? ""
            : " ("
                + (repeat.isEmpty() ? "" : "with " + repeat)
                + (repeat.isEmpty() || path.isEmpty() ? "" : ", ")
                + (path.isEmpty() ? "" : "in " + path)
                + ")";
    assembly.error(at, found + where, wanted, next);
  }
}
