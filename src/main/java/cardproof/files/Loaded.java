package cardproof.files;

import cardproof.text.Problem;
import java.nio.file.Path;
import java.util.List;

/**
 * What was read from a file that can be used.
 *
 * @param warnings what a user should know but that stops nothing, sorted by place
 * @param sources every file that was read for it, the one asked for first
 */
public record Loaded<T>(T value, List<Problem> warnings, List<Path> sources) {
  public Loaded {
    warnings = List.copyOf(warnings);
    sources = List.copyOf(sources);
  }
}
