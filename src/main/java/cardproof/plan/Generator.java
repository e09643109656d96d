package cardproof.plan;

/**
 * A numbered sequence of words. Any element can be asked for at any time, so a plan of any size
 * costs no memory and a run can start in its middle.
 */
public interface Generator {
  /** How many words, at least 1. */
  long count();

  /** Word number {@code index}, from 0 to {@code count() - 1}. */
  long at(long index);
}
