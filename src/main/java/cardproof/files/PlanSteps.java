package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Role;
import cardproof.card.State;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Steps that suit any card: at rest, line by line, all together, at random, and a load pulse. */
final class PlanSteps {
  private static final int MOST_COMBINED = 8;
  private static final int WIDEST = 64;

  /**
   * One step.
   *
   * @param about lines of comment before it
   * @param text as it stands in the file, with line ends
   */
  record Step(List<String> about, String text) {}

  private final Card card;
  private final List<Bus> inputs;
  private final List<Bus> shared;
  private final List<Step> steps = new ArrayList<>();

  PlanSteps(Card card) {
    this.card = card;
    this.inputs = ofRole(Role.INPUT);
    this.shared = ofRole(Role.SHARED);
  }

  private List<Bus> ofRole(Role role) {
    return card.buses().stream().filter(bus -> bus.role() == role).toList();
  }

  List<Step> all() {
    add(
        List.of(
            "To say what a fresh card shows, add a line such as expect: {" + watched() + ": 0}."),
        "nothing driven",
        Set.of(),
        "");
    List<Bus> wide = new ArrayList<>(inputs.stream().filter(bus -> bus.width() > 1).toList());
    wide.addAll(shared);
    for (Bus bus : wide) {
      add(
          List.of("Finds lines of " + bus.name() + " that are missing, stuck or exchanged."),
          "one line of " + bus.name() + " at a time",
          Set.of(bus.name()),
          each(bus.name(), "walking-ones"));
    }
    singleLines();
    if (card.hasState()) {
      card.behaviour().orElseThrow().states().forEach(this::load);
    }
    random();
    return steps;
  }

  private void singleLines() {
    List<String> single = inputs.stream().filter(bus -> bus.width() == 1).map(Bus::name).toList();
    if (single.isEmpty()) {
      return;
    }
    boolean few = single.size() <= MOST_COMBINED;
    String key = String.join(" ", single);
    add(
        List.of(
            few
                ? "Give the buses a word that shows what these lines do."
                : "All combinations would be too many; write down those that matter."),
        few
            ? (single.size() == 1 ? key + " off and on" : "all combinations of " + key)
            : "one single line at a time",
        Set.copyOf(single),
        each(key, few ? "all" : "walking-ones"));
  }

  /** Words into a state by a pulse, where its next value reads a single line and a bus. */
  private void load(State state) {
    BitSet reads = state.next().slots();
    List<Bus> read =
        card.buses().stream()
            .filter(bus -> bus.role().driven() && reads.get(card.busIndex(bus.name())))
            .toList();
    Optional<String> line =
        CardGuess.load(
            read.stream()
                .filter(bus -> bus.role() == Role.INPUT && bus.width() == 1)
                .map(Bus::name)
                .toList());
    Optional<Bus> from =
        read.stream().filter(bus -> !bus.name().equals(line.orElse(""))).findFirst();
    if (line.isEmpty() || from.isEmpty()) {
      return;
    }
    String source = from.get().name();
    String pulse = "    pulse: {" + line.get() + ": 1}\n";
    add(
        List.of(
            "For each word: set it, pulse " + line.get() + ", put it back. Three vectors each."),
        "load " + state.name() + " one line at a time",
        Set.of(source),
        each(source, "walking-ones") + pulse);
    add(
        List.of("Other words, or more of them."),
        "load " + state.name() + " with random words",
        Set.of(source),
        each(source, "{random: 20, seed: 1}") + pulse);
  }

  /**
   * Joined as far as one word reaches, so that there are as many vectors as are asked for. What
   * states read is left out: a word that changes while its load line falls is a race on a real
   * card.
   */
  private void random() {
    List<Bus> left = new ArrayList<>(inputs.isEmpty() ? shared : inputs);
    left.removeIf(bus -> readByStates().get(card.busIndex(bus.name())));
    while (!left.isEmpty()) {
      List<Bus> together = new ArrayList<>();
      int width = 0;
      while (!left.isEmpty() && width + left.get(0).width() <= WIDEST) {
        width += left.get(0).width();
        together.add(left.remove(0));
      }
      String names = together.stream().map(Bus::name).collect(Collectors.joining(" "));
      add(
          List.of("The seed gives the same words each time; another seed gives others."),
          "random words on " + names,
          together.stream().map(Bus::name).collect(Collectors.toCollection(HashSet::new)),
          each(names, "{random: 100, seed: 1}"));
    }
  }

  private BitSet readByStates() {
    BitSet read = new BitSet();
    card.behaviour().stream()
        .flatMap(behaviour -> behaviour.states().stream())
        .forEach(state -> read.or(state.next().slots()));
    return read;
  }

  private String watched() {
    return card.buses().stream()
        .filter(bus -> bus.role().watched())
        .findFirst()
        .map(Bus::name)
        .orElseThrow();
  }

  private static String each(String buses, String words) {
    return "    each: {" + buses + ": " + words + "}\n";
  }

  /**
   * @param moved buses that the step itself sets; all others are put at rest
   */
  private void add(List<String> about, String title, Set<String> moved, String rest) {
    String drive =
        inputs.stream()
            .map(Bus::name)
            .filter(name -> !moved.contains(name))
            .map(name -> name + ": 0")
            .collect(Collectors.joining(", "));
    String release =
        shared.stream()
            .map(Bus::name)
            .filter(name -> !moved.contains(name))
            .collect(Collectors.joining(", "));
    steps.add(
        new Step(
            about,
            "  - title: "
                + title
                + "\n"
                + (drive.isEmpty() ? "" : "    drive: {" + drive + "}\n")
                + (release.isEmpty() ? "" : "    release: [" + release + "]\n")
                + rest));
  }
}
