package cardproof.link;

/**
 * One watch that moved in a step.
 *
 * @param watch its number
 * @param firstUs first change
 * @param lastUs last change
 * @param changes how many, stops at 65535
 * @param moves changes after rest, stops at 255
 */
public record MovedWatch(int watch, long firstUs, long lastUs, int changes, int moves) {}
