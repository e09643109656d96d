package cardproof.files;

import cardproof.card.Card;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.Optional;

/** Reads a card's file, and those of its relay types and its netlist. */
public final class CardFile {
  private CardFile() {}

  /**
   * @throws RefusedException with everything that is wrong with the file, sorted by place
   */
  public static Loaded<Card> read(Path file) {
    Problems problems = new Problems(file);
    return read(file, SourceReader.read(file, problems), problems);
  }

  /** Reads what a file would hold, which need not be there. */
  static Loaded<Card> read(Path file, String text) {
    return read(file, Optional.of(SourceText.of(file.toString(), text)), new Problems(file));
  }

  private static Loaded<Card> read(Path file, Optional<SourceText> text, Problems problems) {
    CardReader reader = new CardReader(file, problems);
    Optional<Card> card =
        text.flatMap(source -> YamlTree.of(source, problems))
            .flatMap(root -> Kind.CARD.check(root, problems))
            .flatMap(reader::read);
    problems.refuseIfAny();
    return new Loaded<>(card.orElseThrow(), problems.warnings(), reader.sources());
  }
}
