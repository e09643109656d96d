package cardproof.files;

import cardproof.card.Card;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * Reads a card's file with those of its relay types and its netlist, or that of a pair of cards,
 * which is used like a card.
 */
public final class CardFile {
  private CardFile() {}

  /**
   * @throws RefusedException with everything that is wrong with the file, sorted by place
   */
  public static Loaded<Card> read(Path file) {
    return read(file, List.of());
  }

  /**
   * @param within files of the pairs that this one is a card of, outermost first
   */
  static Loaded<Card> read(Path file, List<Path> within) {
    Problems problems = new Problems(file);
    return read(file, SourceReader.read(file, problems), within, problems);
  }

  /**
   * Whether a file looks like a card's, right or wrong: it can be read at all and has the key
   * {@code card} with none of a plan's beside it.
   */
  public static boolean looksLikeOne(Path file) {
    Problems unsaid = new Problems(file);
    return SourceReader.read(file, unsaid)
        .flatMap(source -> YamlTree.of(source, unsaid))
        .filter(Kind::looksLikeCard)
        .isPresent();
  }

  /**
   * Reads what a file would hold, which need not be there.
   *
   * @throws RefusedException as for a file
   */
  public static Loaded<Card> read(Path file, String text) {
    Optional<SourceText> source = Optional.of(SourceText.of(file.toString(), text));
    return read(file, source, List.of(), new Problems(file));
  }

  private static Loaded<Card> read(
      Path file, Optional<SourceText> text, List<Path> within, Problems problems) {
    Optional<Node> tree = text.flatMap(source -> YamlTree.of(source, problems));
    if (tree.filter(Kind.PAIR::names).isPresent()) {
      PairReader pair = new PairReader(file, within, problems);
      Optional<Card> both =
          tree.flatMap(root -> Kind.PAIR.check(root, problems)).flatMap(pair::read);
      return loaded(both, pair.sources(), problems);
    }
    CardReader card = new CardReader(file, problems);
    Optional<Card> one = tree.flatMap(root -> Kind.CARD.check(root, problems)).flatMap(card::read);
    return loaded(one, card.sources(), problems);
  }

  private static Loaded<Card> loaded(Optional<Card> card, List<Path> sources, Problems problems) {
    problems.refuseIfAny();
    return new Loaded<>(card.orElseThrow(), problems.warnings(), sources);
  }
}
