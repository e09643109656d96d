package cardproof.text;

/**
 * A place in a file a user wrote.
 *
 * @param file the name as the user gave it
 * @param line counted from 1
 * @param column counted from 1
 */
public record Position(String file, int line, int column) implements Comparable<Position> {
  @Override
  public int compareTo(Position other) {
    int byFile = file.compareTo(other.file);
    if (byFile != 0) {
      return byFile;
    }
    int byLine = Integer.compare(line, other.line);
    return byLine != 0 ? byLine : Integer.compare(column, other.column);
  }

  /** {@code file:line}, the short form that names a step. */
  public String fileAndLine() {
    return file + ":" + line;
  }

  /** {@code file:line:column}, the form editors jump to. */
  @Override
  public String toString() {
    return file + ":" + line + ":" + column;
  }
}
