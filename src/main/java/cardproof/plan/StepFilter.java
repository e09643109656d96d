package cardproof.plan;

import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Keeps some steps of a plan. A word chooses the steps whose title holds it, or, written {@code
 * #quick}, those that have this tag; case aside. A group whose own title or tag is chosen is chosen
 * whole, else only what is chosen inside it.
 *
 * @param only words of which one must choose a step; empty for all steps
 * @param skip words of which none may choose a step
 */
public record StepFilter(List<String> only, List<String> skip) {
  private static final String TAG = "#";

  public StepFilter {
    only = List.copyOf(only);
    skip = List.copyOf(skip);
  }

  /** Whether it leaves every step as it is. */
  public boolean keepsAll() {
    return only.isEmpty() && skip.isEmpty();
  }

  /**
   * @throws RefusedException for each of the words that chooses no step, or when nothing is left
   */
  List<Step> keep(List<Step> steps) {
    Set<String> titles = new LinkedHashSet<>();
    Set<String> tags = new LinkedHashSet<>();
    collect(steps, titles, tags);
    List<Problem> problems = new ArrayList<>();
    only.forEach(word -> check("--only", word, titles, tags, problems));
    skip.forEach(word -> check("--skip", word, titles, tags, problems));
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    List<Step> kept = keep(steps, only.isEmpty());
    if (kept.isEmpty()) {
      throw new RefusedException(
          new Problem("--skip", "no step is left to run", "at least one", "Skip less"));
    }
    return kept;
  }

  private List<Step> keep(List<Step> steps, boolean chosen) {
    List<Step> kept = new ArrayList<>();
    for (Step step : steps) {
      boolean wanted = chosen || only.stream().anyMatch(word -> chooses(word, step));
      if (skip.stream().anyMatch(word -> chooses(word, step))) {
        continue;
      }
      if (step instanceof RepeatStep repeat) {
        List<Step> inside = keep(repeat.steps(), wanted);
        if (!inside.isEmpty()) {
          kept.add(
              new RepeatStep(repeat.at(), repeat.title(), repeat.times(), inside, repeat.tags()));
        }
      } else if (wanted) {
        kept.add(step);
      }
    }
    return kept;
  }

  private static boolean chooses(String word, Step step) {
    return word.startsWith(TAG)
        ? step.tags().stream().anyMatch(word.substring(1)::equalsIgnoreCase)
        : holds(step.title(), word);
  }

  private static void check(
      String option, String word, Set<String> titles, Set<String> tags, List<Problem> problems) {
    boolean tag = word.startsWith(TAG);
    boolean found =
        tag
            ? tags.stream().anyMatch(word::equalsIgnoreCase)
            : titles.stream().anyMatch(title -> holds(title, word));
    if (!found) {
      problems.add(
          new Problem(
              option + " '" + word + "'",
              tag
                  ? "no step of the plan has this tag"
                  : "no step of the plan has these words in its title",
              tag ? "a tag" : "part of a title, or a tag such as #quick",
              hint(word, titles, tags)));
    }
  }

  /** A word that is nearly a tag may have lost its sign. */
  private static String hint(String word, Set<String> titles, Set<String> tags) {
    if (word.startsWith(TAG)) {
      return tags.isEmpty() ? "No step has a tag" : Nearest.hint(word, tags);
    }
    return Nearest.to(word, titles)
        .or(() -> Nearest.to(TAG + word, tags))
        .map(near -> "Did you mean '" + near + "'?")
        .orElseGet(() -> Nearest.listed(titles));
  }

  private static void collect(List<Step> steps, Set<String> titles, Set<String> tags) {
    for (Step step : steps) {
      titles.add(step.title());
      step.tags().forEach(tag -> tags.add(TAG + tag));
      if (step instanceof RepeatStep repeat) {
        collect(repeat.steps(), titles, tags);
      }
    }
  }

  private static boolean holds(String title, String word) {
    return title.toLowerCase(Locale.ROOT).contains(word.toLowerCase(Locale.ROOT));
  }
}
