package cardproof.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Several texts: a list, or one text with commas, which needs no quotes around brackets. In that
 * form no item may hold a comma.
 */
final class TextList {
  private TextList() {}

  /**
   * @param wanted what may stand under the key
   * @return empty, with a problem said, where there are no texts or an empty one
   */
  static Optional<List<Node.Text>> read(Node node, String key, String wanted, Problems problems) {
    List<Node.Text> texts = new ArrayList<>();
    if (node instanceof Node.Listing list) {
      for (Node item : list.items()) {
        new Texts(problems).text(item, key, wanted).ifPresent(texts::add);
      }
      return texts.size() == list.items().size()
          ? Optional.of(List.copyOf(texts))
          : Optional.empty();
    }
    Optional<Node.Text> whole = new Texts(problems).text(node, key, wanted);
    if (whole.isEmpty()) {
      return Optional.empty();
    }
    int from = 0;
    for (String part : whole.get().text().split(",", -1)) {
      if (part.isBlank()) {
        problems.error(whole.get().at(), whole.get().saidOf(key), wanted, "");
        return Optional.empty();
      }
      int lead = part.indexOf(part.strip());
      texts.add(part(whole.get(), from + lead, part.strip()));
      from += part.length() + 1;
    }
    return Optional.of(List.copyOf(texts));
  }

  /** Part of a text, at its own place. */
  static Node.Text part(Node.Text whole, int offset, String part) {
    return new Node.Text(whole.at(offset), part, false, part, false);
  }
}
