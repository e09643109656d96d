package cardproof.files.draft;

import cardproof.card.Card;
import cardproof.files.CardFile;
import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A card's file in the making, from answers. Each answer is judged as it is given, by reading the
 * file that would come of it, so that what is wrong is said in the readers' own words. Immutable.
 */
public final class CardDraft {
  private static final Path FILE = Path.of("card.yaml");
  private static final int SETTLE_FLOORS = 4;
  private static final long ROUND_MS = 10;

  private final Map<CardTopic, List<String>> answers;

  private CardDraft(Map<CardTopic, List<String>> answers) {
    this.answers = answers;
  }

  /** Nothing is known yet. */
  public static CardDraft empty() {
    return new CardDraft(new EnumMap<>(CardTopic.class));
  }

  /**
   * The draft with one answer more; one that is given again replaces the one before, unless there
   * may be several.
   *
   * @throws RefusedException with what the readers have against it
   */
  public CardDraft with(CardTopic topic, String answer) {
    Map<CardTopic, List<String>> more = new EnumMap<>(CardTopic.class);
    more.putAll(answers);
    List<String> all = new ArrayList<>(topic.many() ? all(topic) : List.of());
    all.add(answer.strip());
    more.put(topic, List.copyOf(all));
    CardDraft draft = new CardDraft(more);
    try {
      if (topic == CardTopic.NEXT || topic == CardTopic.BEHAVIOUR) {
        draft.checkAssignment(topic, answer);
      }
      CardFile.read(FILE, draft.text(true));
    } catch (RefusedException refused) {
      String where = topic.word() + " '" + answer.strip() + "'";
      throw new RefusedException(
          refused.problems().stream().map(problem -> draft.without(problem, where)).toList());
    }
    return draft;
  }

  /**
   * The draft without one of the buses or states that were given.
   *
   * @param name of it, with a dash before it
   * @throws RefusedException where none has that name
   */
  public CardDraft without(CardTopic topic, String name) {
    String bare = name.substring(1).strip();
    List<String> kept =
        all(topic).stream()
            .filter(a -> !BusAnswer.of(a, topic == CardTopic.STATE).name().equals(bare))
            .toList();
    if (kept.size() == all(topic).size()) {
      throw new RefusedException(
          new Problem(
              topic.word() + " '" + name + "'",
              "there is no '" + bare + "' to be taken back",
              "a name that was given here",
              Nearest.hint(bare, names(topic))));
    }
    Map<CardTopic, List<String>> fewer = new EnumMap<>(CardTopic.class);
    fewer.putAll(answers);
    if (kept.isEmpty()) {
      fewer.remove(topic);
    } else {
      fewer.put(topic, kept);
    }
    return new CardDraft(fewer);
  }

  /** Lines of a file that is not there yet would only mislead, as would names that stand in. */
  private Problem without(Problem problem, String where) {
    String found = problem.found().replaceAll("; the first is in line \\d+| in line \\d+", "");
    String wanted = problem.wanted().replaceAll(CardText.LATER + "\\w+(, )?", "");
    String next = problem.next().replaceAll(CardText.LATER + "\\w+(, )?", "");
    if (wanted.equals(problem.wanted())) {
      return new Problem(where, found, wanted, next);
    }
    boolean inputs = has(CardTopic.INPUT) || has(CardTopic.SHARED);
    String missing = inputs ? "outputs" : "inputs";
    return new Problem(
        where,
        found + "; the card has no " + missing + " yet",
        wanted,
        "Give the " + missing + " too");
  }

  private void checkAssignment(CardTopic topic, String answer) {
    boolean next = topic == CardTopic.NEXT;
    int sign = answer.indexOf('=');
    if (sign < 1 || answer.startsWith("==", sign)) {
      throw new RefusedException(
          new Problem(
              "",
              "no '=' stands behind a name",
              next ? "a state and its next value, such as R = LD ? D : R" : "such as S = A + B",
              ""));
    }
    String name = answer.substring(0, sign).strip();
    List<String> states = buses(CardTopic.STATE).stream().map(BusAnswer::name).toList();
    if (next && !states.contains(name)) {
      throw new RefusedException(
          new Problem(
              "",
              "there is no state '" + name + "'",
              "the name of a state",
              Nearest.hint(name, states)));
    }
  }

  List<String> all(CardTopic topic) {
    return answers.getOrDefault(topic, List.of());
  }

  /** The answer, or what holds without one. */
  String one(CardTopic topic) {
    return all(topic).stream().findFirst().orElse(topic.standard());
  }

  List<BusAnswer> buses(CardTopic topic) {
    return all(topic).stream().map(a -> BusAnswer.of(a, topic == CardTopic.STATE)).toList();
  }

  /** What was said of a name by {@code NAME = EXPRESSION}; the last time counts. */
  Optional<String> assigned(CardTopic topic, String name) {
    return all(topic).stream()
        .filter(a -> a.substring(0, a.indexOf('=')).strip().equals(name))
        .reduce((first, last) -> last)
        .map(a -> a.substring(a.indexOf('=') + 1).strip());
  }

  /** Whether something is said of a name by {@code NAME = EXPRESSION}. */
  public boolean says(CardTopic topic, String name) {
    return assigned(topic, name).isPresent();
  }

  /** The title, or what it is where nobody says one. */
  public String title() {
    String title = one(CardTopic.TITLE);
    return title.isEmpty() ? one(CardTopic.NAME) + " card" : title;
  }

  /** The names given under a topic, in order. */
  public List<String> names(CardTopic topic) {
    return buses(topic).stream().map(BusAnswer::name).toList();
  }

  /** Names of buses for which nobody gave pins, so that the file has made-up ones. */
  public List<String> guessedPins() {
    return Stream.of(CardTopic.INPUT, CardTopic.OUTPUT, CardTopic.SHARED)
        .flatMap(topic -> buses(topic).stream())
        .filter(bus -> bus.pins().isEmpty())
        .map(BusAnswer::name)
        .toList();
  }

  /** Whether a topic has an answer. */
  public boolean has(CardTopic topic) {
    return answers.containsKey(topic);
  }

  /** What names and widths suggest for a state's next value or an output; empty where nothing. */
  public Optional<String> suggestion(CardTopic topic, String name) {
    Collection<BusAnswer> inputs = buses(CardTopic.INPUT);
    return topic == CardTopic.NEXT
        ? CardGuess.next(name, buses(CardTopic.STATE), inputs, buses(CardTopic.SHARED))
        : CardGuess.output(name, buses(CardTopic.OUTPUT), buses(CardTopic.STATE));
  }

  /** The latest change of any output that relays of these figures may be given for a start. */
  public String settle() {
    if (has(CardTopic.SETTLE)) {
      return one(CardTopic.SETTLE);
    }
    Card card = CardFile.read(FILE, new CardText(this, "1 s").text(true)).value();
    long us = Math.max(1, SETTLE_FLOORS * card.relays().quietFloorUs());
    return (us - 1) / (ROUND_MS * 1_000) * ROUND_MS + ROUND_MS + " ms";
  }

  private String text(boolean unfinished) {
    return new CardText(this, settleOrLong(unfinished)).text(unfinished);
  }

  private String settleOrLong(boolean unfinished) {
    return unfinished ? (has(CardTopic.SETTLE) ? one(CardTopic.SETTLE) : "1 s") : settle();
  }

  /**
   * The card's file, with comments.
   *
   * @throws RefusedException where something is still missing
   */
  public String text() {
    if (!has(CardTopic.NAME)) {
      throw new RefusedException(
          new Problem("name", "the card has no name", "a name, such as sum", ""));
    }
    String text;
    try {
      text = text(false);
      CardFile.read(FILE, text);
    } catch (RefusedException refused) {
      throw new RefusedException(
          refused.problems().stream().map(problem -> without(problem, "the card")).toList());
    }
    return text;
  }
}
