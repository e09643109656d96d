package cardproof.files;

import cardproof.card.Role;
import cardproof.card.compose.Cable;
import cardproof.card.compose.MemberBus;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/** The cable between the cards of a pair: which buses it joins, and by which cores. */
final class CableReader {
  static final List<String> KEYS = List.of("from", "to", "at");

  private static final String EXAMPLE = "{from: chain.N, to: keep.D, at: P1}";
  private static final Pattern PLUG = Pattern.compile("[A-Za-z][A-Za-z0-9_-]*");

  /**
   * What a cable brings to an input.
   *
   * @param from the bus that drives it
   */
  record Feed(String from, Position at) {}

  private final PairNames names;
  private final List<String> cards;
  private final Problems problems;
  private final List<Cable> cables = new ArrayList<>();
  private final Map<MemberBus, Feed> fed = new HashMap<>();
  private final Map<String, Position> cores = new HashMap<>();

  /**
   * @param cards what the pair calls its cards
   */
  CableReader(PairNames names, List<String> cards, Problems problems) {
    this.names = names;
    this.cards = cards;
    this.problems = problems;
  }

  List<Cable> cables() {
    return List.copyOf(cables);
  }

  /** What a cable brings to an input, if one does. */
  Optional<Feed> fed(MemberBus input) {
    return Optional.ofNullable(fed.get(input));
  }

  /** A bus and all that it is joined with. */
  Set<MemberBus> joined(MemberBus bus) {
    Set<MemberBus> all = new LinkedHashSet<>(Set.of(bus));
    int before = 0;
    while (all.size() > before) {
      before = all.size();
      for (Cable cable : cables) {
        if (all.contains(cable.from()) || all.contains(cable.to())) {
          all.addAll(List.of(cable.from(), cable.to()));
        }
      }
    }
    return all;
  }

  void read(Node section) {
    if (!(section instanceof Node.Listing list) || list.items().isEmpty()) {
      boolean empty = section instanceof Node.Listing;
      problems.error(
          section.at(),
          empty ? "'cable' is an empty list" : section.saidOf("cable"),
          "a list of the buses that it joins, such as - " + EXAMPLE,
          "");
      return;
    }
    for (Node item : list.items()) {
      Fields.of(item, "a joint of the cable", KEYS, problems).ifPresent(this::joint);
    }
  }

  private void joint(Fields fields) {
    Optional<PairNames.Found> from = end(fields, "from");
    Optional<PairNames.Found> to = end(fields, "to");
    if (from.isPresent() && to.isPresent() && isBackwards(from.get(), to.get())) {
      return;
    }
    boolean good = from.map(this::drives).orElse(false) & to.map(this::takes).orElse(false);
    if (!good) {
      return;
    }
    PairNames.Found source = from.get();
    PairNames.Found target = to.get();
    if (source.bus().width() != target.bus().width()) {
      names.refuse(
          target.text(),
          target.name()
              + " is "
              + target.bus().width()
              + " wide, and "
              + source.name()
              + " is "
              + source.bus().width(),
          "two buses of equal width, which the cable joins core by core",
          "");
      return;
    }
    if (isNew(source, target)) {
      cores(fields, source, target)
          .ifPresent(
              all -> cables.add(new Cable(source.place(), target.place(), all, fields.at())));
    }
  }

  private Optional<PairNames.Found> end(Fields fields, String key) {
    return fields.require(key, EXAMPLE).flatMap(node -> names.find(node, key));
  }

  private boolean isBackwards(PairNames.Found from, PairNames.Found to) {
    if (from.bus().role() != Role.INPUT || to.bus().role() != Role.OUTPUT) {
      return false;
    }
    names.refuse(
        from.text(),
        from.name() + " is an input and " + to.name() + " an output, which drives it",
        "the bus that drives under 'from'",
        "Exchange 'from' and 'to'");
    return true;
  }

  private boolean drives(PairNames.Found bus) {
    if (bus.bus().role() != Role.INPUT) {
      return true;
    }
    names.refuse(
        bus.text(),
        bus.name() + " is an input, which its card does not drive",
        "an output or a shared bus under 'from'",
        "");
    return false;
  }

  private boolean takes(PairNames.Found bus) {
    if (bus.bus().role() != Role.OUTPUT) {
      return true;
    }
    names.refuse(
        bus.text(),
        bus.name() + " is an output, which its card drives",
        "an input or a shared bus under 'to'",
        "");
    return false;
  }

  /** An input takes one word only; a shared bus may be joined with many, with each once. */
  private boolean isNew(PairNames.Found from, PairNames.Found to) {
    if (from.place().equals(to.place())) {
      names.refuse(to.text(), to.name() + " is joined with itself", "two different buses", "");
      return false;
    }
    Optional<Position> first = first(from, to);
    if (first.isPresent()) {
      names.refuse(
          to.text(),
          to.name() + " is joined a second time; the first is in line " + first.get().line(),
          to.bus().role() == Role.INPUT ? "one cable to an input" : "every two buses joined once",
          "");
    }
    return first.isEmpty();
  }

  private Optional<Position> first(PairNames.Found from, PairNames.Found to) {
    if (to.bus().role() == Role.INPUT) {
      Feed feed = new Feed(from.name(), to.text().at());
      return Optional.ofNullable(fed.putIfAbsent(to.place(), feed)).map(Feed::at);
    }
    return cables.stream()
        .filter(cable -> isBetween(cable, from.place(), to.place()))
        .map(Cable::at)
        .findFirst();
  }

  private static boolean isBetween(Cable cable, MemberBus one, MemberBus other) {
    return cable.from().equals(one) && cable.to().equals(other)
        || cable.from().equals(other) && cable.to().equals(one);
  }

  /** What each core is called, bit 0 first. */
  private Optional<List<String>> cores(Fields fields, PairNames.Found from, PairNames.Found to) {
    int width = from.bus().width();
    Optional<Node> at = fields.get("at");
    if (at.isEmpty()) {
      return Optional.of(
          IntStream.range(0, width)
              .mapToObj(bit -> line(from, bit) + "-" + line(to, bit))
              .toList());
    }
    Optional<List<String>> all = cores(at.get(), width).filter(cores -> free(at.get(), cores));
    if (all.isEmpty()) {
      names.spoilt();
    }
    return all;
  }

  private static String line(PairNames.Found bus, int bit) {
    return bus.bus().width() == 1 ? bus.name() : bus.name() + "[" + bit + "]";
  }

  private Optional<List<String>> cores(Node at, int width) {
    if (at instanceof Node.Text text && PLUG.matcher(text.text().strip()).matches()) {
      String plug = text.text().strip();
      return Optional.of(
          IntStream.rangeClosed(1, width).mapToObj(core -> plug + "." + core).toList());
    }
    Optional<List<String>> pins =
        new PinReader(problems).read(at).map(all -> all.stream().map(Object::toString).toList());
    if (pins.isPresent() && pins.get().size() != width) {
      problems.error(
          at.at(),
          "'at' names " + pins.get().size() + " cores for buses that are " + width + " wide",
          "as many cores as lines, or the cable's name alone, such as P1",
          "");
      return Optional.empty();
    }
    return pins;
  }

  private boolean free(Node at, List<String> wanted) {
    String plug = wanted.get(0).substring(0, wanted.get(0).indexOf('.'));
    if (cards.contains(plug)) {
      problems.error(
          at.at(),
          "'" + plug + "' is the name of a card",
          "a name for the cable that no card has, such as P1",
          "");
      return false;
    }
    Optional<String> taken = wanted.stream().filter(cores::containsKey).findFirst();
    if (taken.isPresent()) {
      problems.error(
          at.at(),
          "core "
              + taken.get()
              + " already belongs to the joint in line "
              + cores.get(taken.get()).line(),
          "one line on each core",
          "Name the cores where one cable joins two buses, such as at: P1.13-24");
    }
    wanted.forEach(core -> cores.putIfAbsent(core, at.at()));
    return taken.isEmpty();
  }
}
