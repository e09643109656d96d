package cardproof.files;

import java.util.List;
import java.util.Optional;

/** Nets as an entry of {@code parts} names them. */
final class NetReader {
  static final String WANTED = "a net, such as +12V or C[i+1]";

  private final Problems problems;

  NetReader(Problems problems) {
    this.problems = problems;
  }

  Optional<IndexText> net(Node node, String key, List<String> repeats) {
    return new Texts(problems).text(node, key, WANTED).flatMap(text -> net(text, repeats));
  }

  private Optional<IndexText> net(Node.Text text, List<String> repeats) {
    return IndexText.read(text, IndexText.Use.NET, repeats, problems);
  }

  /** Exactly two of them; empty, with problems said, where they are not. */
  Optional<List<IndexText>> two(Node node, String key, List<String> repeats) {
    String wanted = "two nets, such as " + key + ": a, GND";
    Optional<List<Node.Text>> texts = TextList.read(node, key, wanted, problems);
    if (texts.isEmpty()) {
      return Optional.empty();
    }
    List<IndexText> nets =
        texts.get().stream().flatMap(text -> net(text, repeats).stream()).toList();
    if (texts.get().size() != 2) {
      problems.error(
          node.at(),
          "'"
              + key
              + "' names "
              + texts.get().size()
              + (texts.get().size() == 1 ? " net" : " nets"),
          wanted,
          "");
      return Optional.empty();
    }
    return nets.size() == 2 ? Optional.of(nets) : Optional.empty();
  }
}
