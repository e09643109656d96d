package cardproof.text;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** The known name that a mistyped one most likely stands for. */
public final class Nearest {
  /** No name that anybody meant is longer. */
  private static final int LONGEST = 100;

  /** More names than this nobody reads through. */
  private static final int MOST_LISTED = 12;

  private Nearest() {}

  /**
   * The known name with the smallest edit distance to {@code found}, ignoring case, when that
   * distance is at most a third of its length (at least 1) and leaves something of it; else empty.
   * Two neighbouring letters that changed places are one edit, as the commonest slip of fingers.
   */
  public static Optional<String> to(String found, Collection<String> known) {
    if (found.length() > LONGEST) {
      return Optional.empty();
    }
    String wanted = found.toLowerCase(Locale.ROOT);
    return known.stream()
        .filter(name -> isNear(wanted, name))
        .min(
            Comparator.<String>comparingInt(name -> distance(wanted, name))
                .thenComparing(Comparator.naturalOrder()));
  }

  /** {@code Did you mean 'x'?}, or the list of what is known, or empty when nothing is. */
  public static String hint(String found, Collection<String> known) {
    return to(found, known).map(name -> "Did you mean '" + name + "'?").orElse(listed(known));
  }

  /** {@code Known: a, b}, cut short where there are many; empty when nothing is known. */
  public static String listed(Collection<String> known) {
    if (known.isEmpty()) {
      return "";
    }
    int more = known.size() - MOST_LISTED;
    String shown = known.stream().limit(MOST_LISTED).collect(Collectors.joining(", "));
    return "Known: " + shown + (more > 0 ? " and " + more + " more" : "");
  }

  private static boolean isNear(String wanted, String name) {
    int distance = distance(wanted, name);
    return distance <= Math.max(1, name.length() / 3)
        && distance < Math.max(wanted.length(), name.length());
  }

  /** Optimal string alignment: insert, delete, replace one letter, or swap two neighbours. */
  private static int distance(String wanted, String known) {
    String name = known.toLowerCase(Locale.ROOT);
    int[][] cost = new int[wanted.length() + 1][name.length() + 1];
    for (int i = 0; i <= wanted.length(); i++) {
      for (int j = 0; j <= name.length(); j++) {
        cost[i][j] = i == 0 || j == 0 ? i + j : least(cost, i, j, wanted, name);
      }
    }
    return cost[wanted.length()][name.length()];
  }

  private static int least(int[][] cost, int i, int j, String wanted, String name) {
    boolean same = wanted.charAt(i - 1) == name.charAt(j - 1);
    int replaced = cost[i - 1][j - 1] + (same ? 0 : 1);
    int least = Math.min(replaced, 1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
    boolean swapped =
        i > 1
            && j > 1
            && wanted.charAt(i - 1) == name.charAt(j - 2)
            && wanted.charAt(i - 2) == name.charAt(j - 1);
    return swapped ? Math.min(least, cost[i - 2][j - 2] + 1) : least;
  }
}
