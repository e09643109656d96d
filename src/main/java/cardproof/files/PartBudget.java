package cardproof.files;

import java.util.List;

/** How many parts a card may have; counted before any is made. */
final class PartBudget {
  /** Far beyond any card, far below what would trouble the memory. */
  static final long MOST_PARTS = 20_000;

  private final Problems problems;

  PartBudget(Problems problems) {
    this.problems = problems;
  }

  /** Whether so many can be made; says at which entry they become too many. */
  boolean allows(List<PartEntry> entries) {
    long all = 0;
    for (PartEntry entry : entries) {
      long more = entry.parts();
      if (more > MOST_PARTS - all) {
        problems.error(
            entry.name().at(),
            "with "
                + entry.name().text().described()
                + ", which stands for "
                + (more == Long.MAX_VALUE ? "more parts than can be counted" : more + " parts")
                + ", the card has more than 20,000",
            "at most 20,000 parts",
            "Look at the numbers of its 'for' and of those in its block");
        return false;
      }
      all += more;
    }
    return true;
  }
}
