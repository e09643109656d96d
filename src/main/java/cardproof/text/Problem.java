package cardproof.text;

import java.util.Objects;

/**
 * One thing a user can put right, as four facts that are formatted here and nowhere else.
 *
 * @param where {@code file:line:column}, a port, a vector, an option
 * @param found what is there
 * @param wanted what was expected instead; empty when {@code found} says it all
 * @param next what to do about it; empty when that is plain
 */
public record Problem(String where, String found, String wanted, String next) {
  public Problem {
    Objects.requireNonNull(where);
    Objects.requireNonNull(found);
    Objects.requireNonNull(wanted);
    Objects.requireNonNull(next);
  }

  public static Problem at(Position position, String found, String wanted, String next) {
    return new Problem(position.toString(), found, wanted, next);
  }

  /** One paragraph: {@code where: found; wanted. Next step.} */
  @Override
  public String toString() {
    StringBuilder text = new StringBuilder(where).append(": ").append(found);
    if (!wanted.isEmpty()) {
      text.append("; wanted ").append(wanted);
    }
    text.append('.');
    if (!next.isEmpty()) {
      text.append(' ').append(next).append(ends(next) ? "" : ".");
    }
    return text.toString();
  }

  private static boolean ends(String sentence) {
    return sentence.endsWith("?") || sentence.endsWith(".");
  }
}
