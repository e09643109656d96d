package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Role;
import cardproof.card.State;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/** Steps that suit any card: at rest, line by line, all together, at random, and a load pulse. */
final class PlanSteps {
  private static final int MOST_COMBINED = 8;
  private static final int WIDEST = 64;

  /** Lines all words of which are few enough. */
  private static final int FEW_LINES = 8;

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
        Standing.rest(card),
        "");
    List<Bus> wide = new ArrayList<>(inputs.stream().filter(bus -> bus.width() > 1).toList());
    wide.addAll(shared);
    wide.forEach(this::walk);
    singleLines();
    if (card.hasState()) {
      card.behaviour().orElseThrow().states().forEach(this::load);
    }
    allWords();
    return steps;
  }

  private void walk(Bus bus) {
    Standing standing = standing(List.of(bus), walking(bus));
    add(
        List.of(claim(bus.name(), standing.sight())),
        "one line of " + bus.name() + " at a time",
        Set.of(bus.name()),
        standing,
        each(bus.name(), "walking-ones"));
  }

  private void singleLines() {
    List<Bus> single = inputs.stream().filter(bus -> bus.width() == 1).toList();
    if (single.isEmpty()) {
      return;
    }
    boolean few = single.size() <= MOST_COMBINED;
    String key = single.stream().map(Bus::name).collect(Collectors.joining(" "));
    List<long[]> vectors = new ArrayList<>();
    for (int i = 0; i < (few ? 1 << single.size() : single.size()); i++) {
      long[] vector = new long[card.buses().size()];
      for (int line = 0; line < single.size(); line++) {
        boolean on = few ? (i >> single.size() - 1 - line & 1) != 0 : i == line;
        vector[index(single.get(line))] = on ? 1 : 0;
      }
      vectors.add(vector);
    }
    Standing standing = standing(single, vectors);
    add(
        List.of(
            claim(key, standing.sight()),
            few
                ? "Give the buses other words to see more of what these lines do."
                : "All combinations would be too many; write down those that matter."),
        few
            ? (single.size() == 1 ? key + " off and on" : "all combinations of " + key)
            : "one single line at a time",
        single.stream().map(Bus::name).collect(Collectors.toSet()),
        standing,
        each(key, few ? "all" : "walking-ones"));
  }

  private List<long[]> walking(Bus bus) {
    List<long[]> vectors = new ArrayList<>();
    for (int bit = 0; bit < bus.width(); bit++) {
      long[] vector = new long[card.buses().size()];
      vector[index(bus)] = 1L << bit;
      vectors.add(vector);
    }
    return vectors;
  }

  /** What states read stays at 0, or they would follow each word. */
  private Standing standing(List<Bus> moved, List<long[]> vectors) {
    return standing(moved, vectors, readByStates());
  }

  private Standing standing(List<Bus> moved, List<long[]> vectors, BitSet resting) {
    if (card.behaviour().isEmpty()) {
      return Standing.rest(card);
    }
    List<StepSight.Moved> lines = new ArrayList<>();
    for (Bus bus : moved) {
      for (int bit = 0; bit < bus.width(); bit++) {
        lines.add(new StepSight.Moved(index(bus), 1L << bit));
      }
    }
    List<Integer> free =
        inputs.stream()
            .filter(bus -> !moved.contains(bus))
            .map(this::index)
            .filter(b -> !resting.get(b))
            .toList();
    return Standing.best(card, free, new StepSight(card, lines, vectors));
  }

  private int index(Bus bus) {
    return card.busIndex(bus.name());
  }

  /** What may be said of a step; no more than the card's behaviour bears out. */
  private String claim(String lines, StepSight.Sight sight) {
    if (card.behaviour().isEmpty()) {
      return "Finds nothing until an expect says what must come back.";
    }
    if (sight.found() == 0) {
      return "No output shows " + lines + " here; that nothing moves is all this step can prove.";
    }
    boolean all = sight.found() == sight.of();
    return "Finds "
        + (all ? "" : sight.found() + " of " + sight.of() + " faults of ")
        + (all ? "lines of " : "")
        + lines
        + (all ? " that are missing or stuck" : ": lines stuck at ground or supply")
        + (sight.neighbours() ? ", and neighbours exchanged." : ".");
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
    Standing standing = loading(from.get(), card.busIndex(line.get()));
    add(
        List.of(
            "For each word: set it, pulse " + line.get() + ", put it back. Three vectors each.",
            claim(source, standing.sight())),
        "load " + state.name() + " one line at a time",
        Set.of(source),
        standing,
        each(source, "walking-ones") + pulse);
    add(
        List.of("Other words, or more of them."),
        "load " + state.name() + " with random words",
        Set.of(source),
        standing,
        each(source, "{random: 20, seed: 1}") + pulse);
    if (inputs.stream().anyMatch(bus -> !readByStates().get(index(bus)))) {
      add(
          List.of("What is kept from here on shows whether lines let it through that should not."),
          "load " + state.name() + " with every line on",
          Set.of(source),
          standing,
          each(source, "[" + word(from.get().mask()) + "]") + pulse);
    }
    for (Bus other : read) {
      if (other.width() == 1 && other != from.get() && !other.name().equals(line.get())) {
        flipped(state, other, from.get(), standing, pulse);
      }
    }
  }

  /** The same pulse with another line that the state reads the other way round. */
  private void flipped(State state, Bus other, Bus from, Standing standing, String pulse) {
    long[] levels = standing.levels().clone();
    levels[index(other)] ^= 1;
    add(
        List.of(
            "The last word is there; whether it may change now depends on " + other.name() + "."),
        "load " + state.name() + " with " + other.name() + " at " + levels[index(other)],
        Set.of(from.name()),
        new Standing(levels, StepSight.Sight.NONE),
        each(from.name(), "[0, " + word(from.mask()) + "]") + pulse);
  }

  private Standing loading(Bus source, int line) {
    List<long[]> vectors = new ArrayList<>();
    for (long[] word : walking(source)) {
      long[] on = word.clone();
      on[line] = 1;
      vectors.addAll(List.of(word, on, word));
    }
    BitSet resting = new BitSet();
    resting.set(line); // or there would be no pulse
    return standing(List.of(source), vectors, resting);
  }

  /**
   * Every word where there are few, or random ones, of lines joined as far as one word reaches, so
   * that there are as many vectors as are asked for. What states read is left out: a word that
   * changes while its load line falls is a race on a real card.
   */
  private void allWords() {
    List<Bus> left = new ArrayList<>(inputs.isEmpty() ? shared : inputs);
    left.removeIf(bus -> readByStates().get(index(bus)));
    boolean few = !card.hasState() && left.stream().mapToInt(Bus::width).sum() <= FEW_LINES;
    if (few && !inputs.isEmpty() && left.stream().allMatch(bus -> bus.width() == 1)) {
      return; // the single lines have gone through all of them
    }
    while (!left.isEmpty()) {
      List<Bus> together = new ArrayList<>();
      int width = 0;
      while (!left.isEmpty() && width + left.get(0).width() <= WIDEST) {
        width += left.get(0).width();
        together.add(left.remove(0));
      }
      String names = together.stream().map(Bus::name).collect(Collectors.joining(" "));
      add(
          List.of(
              few
                  ? "Whatever these lines can do is tried here."
                  : "The seed gives the same words each time; another seed gives others."),
          (few ? "every word on " : "random words on ") + names,
          together.stream().map(Bus::name).collect(Collectors.toCollection(HashSet::new)),
          Standing.rest(card),
          each(names, few ? "all" : "{random: 100, seed: 1}"));
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
   * @param moved buses that the step itself sets
   * @param standing what all other inputs stand at
   */
  private void add(
      List<String> about, String title, Set<String> moved, Standing standing, String rest) {
    String drive =
        inputs.stream()
            .filter(bus -> !moved.contains(bus.name()))
            .map(bus -> bus.name() + ": " + word(standing.levels()[index(bus)]))
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

  private static String word(long level) {
    return level >= 0 && level < 10
        ? "" + level
        : "0x" + Long.toHexString(level).toUpperCase(Locale.ROOT);
  }
}
