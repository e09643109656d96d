package cardproof.files.draft;

import cardproof.card.Bus;
import cardproof.card.Role;
import cardproof.card.State;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/** Words into a state by a pulse, where its next value reads a single line and a bus. */
final class LoadSteps {
  /** Lines all words of which are no more than the random ones. */
  private static final int FEW_LINES = 4;

  private final DraftCard card;
  private final StepWriter writer;
  private final State state;
  private final int seed;
  private final List<Bus> read;

  /**
   * @param seed another for each state, so that they do not end up alike
   */
  LoadSteps(DraftCard card, StepWriter writer, State state, int seed) {
    this.card = card;
    this.writer = writer;
    this.state = state;
    this.seed = seed;
    BitSet reads = state.next().slots();
    this.read =
        card.card().buses().stream()
            .filter(bus -> bus.role().driven() && reads.get(card.index(bus)))
            .toList();
  }

  /** None where no line of the card's seems to load it. */
  List<DraftStep> all() {
    Optional<Bus> line = line();
    Optional<Bus> from = read.stream().filter(bus -> !line.equals(Optional.of(bus))).findFirst();
    return line.isPresent() && from.isPresent() ? load(line.get(), from.get()) : List.of();
  }

  private Optional<Bus> line() {
    List<Bus> single =
        read.stream().filter(bus -> bus.role() == Role.INPUT && bus.width() == 1).toList();
    return CardGuess.load(single.stream().map(Bus::name).toList())
        .flatMap(name -> single.stream().filter(bus -> bus.name().equals(name)).findFirst());
  }

  private List<DraftStep> load(Bus line, Bus from) {
    String pulse = StepWriter.pulse(line.name());
    Standing standing = standing(from, line);
    boolean few = from.width() <= FEW_LINES;
    List<DraftStep> steps = new ArrayList<>();
    steps.add(
        writer.step(
            List.of(
                "For each word: set it, pulse "
                    + line.name()
                    + ", put it back. Three vectors each.",
                card.claim(from.name(), standing.sight())),
            "load " + state.name() + " one line at a time",
            List.of(from),
            standing.levels(),
            StepWriter.each(from.name(), "walking-ones") + pulse));
    steps.add(
        writer.step(
            List.of(few ? "Whatever these lines can bring." : "Other words, or more of them."),
            "load " + state.name() + (few ? " with every word" : " with random words"),
            List.of(from),
            standing.levels(),
            StepWriter.each(from.name(), few ? "all" : "{random: 20, seed: " + seed + "}")
                + pulse));
    if (card.inputs().stream().anyMatch(bus -> !card.isReadByStates(bus))) {
      steps.add(
          writer.step(
              List.of(
                  "What is kept from here on shows whether lines let it through that should not."),
              "load " + state.name() + " with every line on",
              List.of(from),
              standing.levels(),
              StepWriter.each(from.name(), "[" + StepWriter.word(from.mask()) + "]") + pulse));
    }
    read.stream()
        .filter(other -> other.width() == 1 && other != from && other != line)
        .forEach(other -> steps.add(flipped(other, from, standing.levels(), pulse)));
    return steps;
  }

  /** The same pulse with another line that the state reads the other way round. */
  private DraftStep flipped(Bus other, Bus from, long[] standing, String pulse) {
    long[] levels = standing.clone();
    levels[card.index(other)] ^= 1;
    return writer.step(
        List.of(
            "The last word is there; whether it may change now depends on " + other.name() + "."),
        "load " + state.name() + " with " + other.name() + " at " + levels[card.index(other)],
        List.of(from),
        levels,
        StepWriter.each(from.name(), "[0, " + StepWriter.word(from.mask()) + "]") + pulse);
  }

  private Standing standing(Bus source, Bus line) {
    List<long[]> vectors = new ArrayList<>();
    for (long[] word : WalkSteps.walking(card, source)) {
      long[] on = word.clone();
      on[card.index(line)] = 1;
      vectors.addAll(List.of(word, on, word));
    }
    BitSet resting = new BitSet();
    resting.set(card.index(line)); // or there would be no pulse
    return card.standing(List.of(source), vectors, resting);
  }
}
