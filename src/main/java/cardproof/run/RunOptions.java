package cardproof.run;

/**
 * How a run goes about it.
 *
 * @param stopOnFail end at the first vector that does not pass, with its pattern held until then
 */
public record RunOptions(boolean stopOnFail) {}
