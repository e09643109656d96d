package cardproof.system;

/**
 * What came of a {@link Program}.
 *
 * @param exit its exit code; 128 and the number of the signal that ended it
 * @param out all of standard output
 * @param err all of standard error
 * @param atNs when its end was seen, as {@code System.nanoTime}
 */
record Ended(int exit, String out, String err, long atNs) {}
