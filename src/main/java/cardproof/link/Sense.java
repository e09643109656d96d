package cardproof.link;

/**
 * Rail and current now; 65535 stands for that or more.
 *
 * @param railMv millivolts
 * @param currentMa milliamps
 */
public record Sense(int railMv, int currentMa) implements Message {}
