package cardproof.log;

/**
 * One line that moved during a vector. Times in microseconds from the vector's start.
 *
 * @param line index over the whole card
 * @param endsHigh its level at the end, which is the direction the time belongs to
 * @param firstUs first change
 * @param lastUs last change: the settle time, unless censored
 * @param changes how many
 * @param moves changes after rest
 * @param censored the last change was not confirmed by quiet after it: the settle time is more than
 *     {@code lastUs}
 * @param byFixture the fixture's own drive of this line changed in this vector, or the vector was a
 *     timed sequence, so that the time is not the card's
 */
public record MovedLine(
    int line,
    boolean endsHigh,
    long firstUs,
    long lastUs,
    int changes,
    int moves,
    boolean censored,
    boolean byFixture) {
  /** The same movement, of which it turned out that it was not the end. */
  public MovedLine unconfirmed() {
    return new MovedLine(line, endsHigh, firstUs, lastUs, changes, moves, true, byFixture);
  }
}
