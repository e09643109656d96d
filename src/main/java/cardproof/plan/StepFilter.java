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
 * Keeps the steps whose title holds one of some words, case aside. A repeat whose own title matches
 * is kept whole, else only what matches inside it.
 */
public final class StepFilter {
  private final List<String> words;
  private final Set<String> titles = new LinkedHashSet<>();

  public StepFilter(List<String> words) {
    this.words = List.copyOf(words);
  }

  /**
   * @throws RefusedException for each of the words that no title holds
   */
  List<Step> keep(List<Step> steps) {
    collect(steps);
    List<Problem> problems = new ArrayList<>();
    for (String word : words) {
      if (titles.stream().noneMatch(title -> holds(title, word))) {
        problems.add(
            new Problem(
                "--only '" + word + "'",
                "no step of the plan has these words in its title",
                "part of a title",
                Nearest.hint(word, titles)));
      }
    }
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    return matching(steps);
  }

  private void collect(List<Step> steps) {
    for (Step step : steps) {
      titles.add(step.title());
      if (step instanceof RepeatStep repeat) {
        collect(repeat.steps());
      }
    }
  }

  private List<Step> matching(List<Step> steps) {
    List<Step> kept = new ArrayList<>();
    for (Step step : steps) {
      if (words.stream().anyMatch(word -> holds(step.title(), word))) {
        kept.add(step);
      } else if (step instanceof RepeatStep repeat) {
        List<Step> inside = matching(repeat.steps());
        if (!inside.isEmpty()) {
          kept.add(new RepeatStep(repeat.at(), repeat.title(), repeat.times(), inside));
        }
      }
    }
    return kept;
  }

  private static boolean holds(String title, String word) {
    return title.toLowerCase(Locale.ROOT).contains(word.toLowerCase(Locale.ROOT));
  }
}
