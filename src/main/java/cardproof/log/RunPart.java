package cardproof.log;

/**
 * The vectors for which the records of one run hold, among runs that continue each other.
 *
 * @param from the first of them
 * @param below the first after them; {@code Long.MAX_VALUE} in the last run
 */
public record RunPart(long run, long from, long below) {
  boolean holds(long number) {
    return number >= from && number < below;
  }
}
