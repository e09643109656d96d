package cardproof.run;

/**
 * How a run goes about it.
 *
 * @param stopOnFail end at the first vector that does not pass, with its pattern held until then
 * @param from number of the first vector to apply; those before it are left out
 * @param stateLost what the card keeps is not known at the first vector
 * @param capture ask the fixture for every edge; each vector then is alone in it
 */
public record RunOptions(boolean stopOnFail, long from, boolean stateLost, boolean capture) {
  public RunOptions(boolean stopOnFail, long from, boolean stateLost) {
    this(stopOnFail, from, stateLost, false);
  }

  /** The whole plan, on a card that was just powered. */
  public RunOptions(boolean stopOnFail) {
    this(stopOnFail, 0, false);
  }
}
