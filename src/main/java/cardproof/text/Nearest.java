package cardproof.text;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.text.similarity.LevenshteinDistance;

/** The known name that a mistyped one most likely stands for. */
public final class Nearest {
  private Nearest() {}

  /**
   * The known name with the smallest edit distance to {@code found}, ignoring case, when that
   * distance is at most a third of its length (at least 1); else empty.
   */
  public static Optional<String> to(String found, Collection<String> known) {
    String wanted = found.toLowerCase(Locale.ROOT);
    return known.stream()
        .filter(name -> distance(wanted, name) <= Math.max(1, name.length() / 3))
        .min(
            Comparator.<String>comparingInt(name -> distance(wanted, name))
                .thenComparing(Comparator.naturalOrder()));
  }

  /** {@code Did you mean 'x'?}, or the list of what is known, or empty when nothing is. */
  public static String hint(String found, Collection<String> known) {
    return to(found, known)
        .map(name -> "Did you mean '" + name + "'?")
        .orElse(known.isEmpty() ? "" : "Known: " + String.join(", ", known));
  }

  private static int distance(String wanted, String name) {
    return LevenshteinDistance.getDefaultInstance().apply(wanted, name.toLowerCase(Locale.ROOT));
  }
}
