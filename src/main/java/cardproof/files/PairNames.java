package cardproof.files;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.compose.MemberBus;
import cardproof.text.Nearest;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Finds the buses that a pair names by their cards: {@code chain.N}. */
final class PairNames {
  /**
   * A bus that was found.
   *
   * @param text where the pair names it
   */
  record Found(Node.Text text, MemberBus place, Bus bus) {
    /** {@code chain.N}. */
    String name() {
      return text.text().strip();
    }
  }

  static final String FORM = "the card, a point and its bus, such as keep.Q";

  private final PairCards cards;
  private final Problems problems;
  private boolean allGood = true;

  PairNames(PairCards cards, Problems problems) {
    this.cards = cards;
    this.problems = problems;
  }

  /** Whether every bus named so far could be used. */
  boolean allGood() {
    return allGood;
  }

  /** Something else is wrong with a bus, and was said. */
  void spoilt() {
    allGood = false;
  }

  /** Says what is wrong with a bus, or with what should name it. */
  void refuse(Node at, String found, String wanted, String next) {
    allGood = false;
    problems.error(at.at(), found, wanted, next);
  }

  /** The bus, or nothing, with a problem said unless its card's file is to blame. */
  Optional<Found> find(Node node, String key) {
    Optional<Node.Text> text = new Texts(problems).text(node, key, FORM);
    Optional<Found> found = text.flatMap(this::find);
    allGood &= found.isPresent();
    return found;
  }

  private Optional<Found> find(Node.Text text) {
    String name = text.text().strip();
    int point = name.indexOf('.');
    if (point < 0) {
      return refused(text, text.described() + " names no bus of a card", FORM, withPoint(name));
    }
    String owner = name.substring(0, point);
    String bus = name.substring(point + 1);
    if (!cards.names().contains(owner)) {
      return cards.complete()
          ? refused(
              text,
              "the pair has no card '" + owner + "'",
              FORM,
              Nearest.hint(owner, cards.names()))
          : Optional.empty();
    }
    Optional<Card> card = cards.card(owner);
    return card.isEmpty() ? Optional.empty() : find(text, owner, card.get(), bus);
  }

  private Optional<Found> find(Node.Text text, String owner, Card card, String name) {
    int index = card.busIndex(name);
    if (index >= 0) {
      MemberBus place = new MemberBus(cards.names().indexOf(owner), index);
      return Optional.of(new Found(text, place, card.buses().get(index)));
    }
    if (card.line(name).isPresent()) {
      String bus = card.line(name).orElseThrow().bus().name();
      return refused(
          text,
          text.described() + " is a line of bus '" + bus + "'",
          "a whole bus",
          "Write " + owner + "." + bus);
    }
    return refused(
        text,
        "card " + owner + " has no bus '" + name + "'",
        FORM,
        Nearest.hint(name, card.buses().stream().map(Bus::name).toList()));
  }

  private Optional<Found> refused(Node.Text text, String found, String wanted, String next) {
    refuse(text, found, wanted, next);
    return Optional.empty();
  }

  /** Where only the card was left out. */
  private String withPoint(String bus) {
    List<String> all = new ArrayList<>();
    for (String owner : cards.names()) {
      cards
          .card(owner)
          .ifPresent(card -> card.buses().forEach(one -> all.add(owner + "." + one.name())));
    }
    List<String> same = all.stream().filter(name -> name.endsWith("." + bus)).toList();
    return same.isEmpty() ? Nearest.listed(all) : "Did you mean " + String.join(" or ", same) + "?";
  }
}
