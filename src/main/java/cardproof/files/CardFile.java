package cardproof.files;

import cardproof.card.Card;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Reads a card's file. */
public final class CardFile {
  private CardFile() {}

  /**
   * @throws RefusedException with everything that is wrong with the file, sorted by place
   */
  public static Loaded<Card> read(Path file) {
    Problems problems = new Problems(file);
    Optional<Card> card =
        SourceReader.read(file, problems)
            .flatMap(source -> YamlTree.of(source, problems))
            .flatMap(root -> Kind.CARD.check(root, problems))
            .flatMap(root -> new CardReader(problems).read(root));
    problems.refuseIfAny();
    return new Loaded<>(card.orElseThrow(), problems.warnings(), List.of(file));
  }
}
