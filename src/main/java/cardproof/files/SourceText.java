package cardproof.files;

import cardproof.text.Position;
import java.util.List;
import org.yaml.snakeyaml.error.Mark;

/**
 * The text of a file, with the places in it.
 *
 * @param name the file as the user named it
 * @param codePoints the text, by the index that SnakeYAML's marks count in
 * @param lines without their ends
 */
record SourceText(String name, String text, int[] codePoints, List<String> lines) {
  static SourceText of(String name, String text) {
    return new SourceText(
        name, text, text.codePoints().toArray(), List.of(text.split("\r\n|\r|\n", -1)));
  }

  Position at(Mark mark) {
    return new Position(name, mark.getLine() + 1, mark.getColumn() + 1);
  }

  /** The line a mark stands in; empty past the end. */
  String line(Mark mark) {
    return mark.getLine() < lines.size() ? lines.get(mark.getLine()) : "";
  }

  /** What is written between two marks. */
  String between(Mark from, Mark to) {
    int start = Math.min(from.getIndex(), codePoints.length);
    int end = Math.max(start, Math.min(to.getIndex(), codePoints.length));
    return new String(codePoints, start, end - start);
  }
}
