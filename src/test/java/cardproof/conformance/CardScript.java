package cardproof.conformance;

import java.util.ArrayList;
import java.util.List;

/**
 * What a card does, one rule for a watch. A rule that follows is a contact: a drive that goes back
 * before the contact has moved leaves it as it was. Watches without a rule stay at 0.
 */
final class CardScript {
  /**
   * @param bounces how many times it opens and closes again, {@code bounceUs} between two changes
   */
  record Follow(
      int watch,
      int drive,
      boolean inverted,
      long afterUs,
      long releaseUs,
      int bounces,
      long bounceUs) {}

  /** Changes its level every so often while the drive is on, first one period after; else 0. */
  record Oscillate(int watch, long everyUs, int drive) {}

  record Constant(int watch) {}

  private final List<Follow> follows = new ArrayList<>();
  private final List<Oscillate> oscillates = new ArrayList<>();
  private final List<Constant> constants = new ArrayList<>();

  CardScript follow(int watch, int drive, long afterUs) {
    return follow(watch, drive, afterUs, afterUs);
  }

  CardScript follow(int watch, int drive, long afterUs, long releaseUs) {
    follows.add(new Follow(watch, drive, false, afterUs, releaseUs, 0, 0));
    return this;
  }

  CardScript bounce(int watch, int drive, long afterUs, int bounces, long bounceUs) {
    follows.add(new Follow(watch, drive, false, afterUs, afterUs, bounces, bounceUs));
    return this;
  }

  CardScript invert(int watch, int drive, long afterUs) {
    follows.add(new Follow(watch, drive, true, afterUs, afterUs, 0, 0));
    return this;
  }

  CardScript oscillate(int watch, long everyUs, int drive) {
    oscillates.add(new Oscillate(watch, everyUs, drive));
    return this;
  }

  CardScript one(int watch) {
    constants.add(new Constant(watch));
    return this;
  }

  List<Follow> follows() {
    return follows;
  }

  List<Oscillate> oscillates() {
    return oscillates;
  }

  List<Constant> constants() {
    return constants;
  }
}
