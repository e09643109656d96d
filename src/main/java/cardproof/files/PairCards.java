package cardproof.files;

import cardproof.card.Card;
import cardproof.card.compose.Member;
import cardproof.text.Position;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** The cards of a pair, each read from its own file, which may be that of a pair again. */
final class PairCards {
  private static final int TWO = 2;
  private static final String EXAMPLE = "such as cards: {chain: next.yaml, keep: keep.yaml}";

  private final Path file;
  private final List<Path> within;
  private final List<Path> sources;
  private final Problems problems;
  private final Map<String, Optional<Card>> cards = new LinkedHashMap<>();
  private final List<Position> places = new ArrayList<>();
  private boolean complete;

  /**
   * @param within files of the pairs that this one is a card of, outermost first
   * @param sources takes the files that are read
   */
  PairCards(Path file, List<Path> within, List<Path> sources, Problems problems) {
    this.file = file;
    this.within = within;
    this.sources = sources;
    this.problems = problems;
  }

  void read(Node section) {
    if (!(section instanceof Node.Mapping map)) {
      problems.error(
          section.at(),
          section.saidOf("cards"),
          "a map with the name and the file of each card, " + EXAMPLE,
          "");
      return;
    }
    complete = map.entries().size() == TWO;
    if (!complete) {
      problems.error(
          map.at(),
          map.entries().size() == 1 ? "there is one card" : map.entries().size() + " cards",
          "two cards, " + EXAMPLE,
          map.entries().size() > TWO ? "A pair may be a card of another pair" : "");
    }
    map.entries().forEach(this::card);
  }

  private void card(Node.Entry entry) {
    if (!new Texts(problems).busName(entry.key(), "a card of a pair")) {
      complete = false;
      return;
    }
    String wanted = "the card's file, such as next.yaml";
    Optional<Card> card =
        new Texts(problems)
            .text(entry.value(), entry.key().text(), wanted)
            .flatMap(
                name ->
                    OtherFile.named(
                            name,
                            file,
                            "the card's file, named from where the pair lies",
                            wanted,
                            problems)
                        .filter(path -> isNoCircle(path, name.at()))
                        .flatMap(this::card));
    cards.put(entry.key().text(), card);
    places.add(entry.key().at());
  }

  private boolean isNoCircle(Path path, Position at) {
    List<Path> chain = Stream.concat(within.stream(), Stream.of(file)).toList();
    Path found = OtherFile.identity(path);
    boolean circle = chain.stream().map(OtherFile::identity).anyMatch(found::equals);
    if (circle) {
      problems.error(
          at,
          "a pair is a card of itself: "
              + Stream.concat(chain.stream(), Stream.of(path))
                  .map(one -> one.getFileName().toString())
                  .collect(Collectors.joining(" -> ")),
          "the file of another card",
          "");
    }
    return !circle;
  }

  private Optional<Card> card(Path path) {
    try {
      Loaded<Card> loaded =
          CardFile.read(path, Stream.concat(within.stream(), Stream.of(file)).toList());
      problems.adoptWarnings(loaded.warnings());
      loaded.sources().stream().filter(one -> !sources.contains(one)).forEach(sources::add);
      return Optional.of(loaded.value());
    } catch (RefusedException refused) {
      problems.adoptErrors(refused.problems());
      return Optional.empty();
    }
  }

  /** What the pair calls its cards. */
  List<String> names() {
    return List.copyOf(cards.keySet());
  }

  /** Whether there are cards enough for what names one of them to be judged. */
  boolean complete() {
    return complete;
  }

  /** A card by its name; empty where it could not be read. */
  Optional<Card> card(String name) {
    return cards.get(name);
  }

  /** Where a card is named. */
  Position at(int member) {
    return places.get(member);
  }

  /** All the cards, where all could be read. */
  Optional<List<Member>> members() {
    if (!complete || cards.values().stream().anyMatch(Optional::isEmpty)) {
      return Optional.empty();
    }
    return Optional.of(
        cards.entrySet().stream()
            .map(entry -> new Member(entry.getKey(), entry.getValue().orElseThrow()))
            .toList());
  }
}
