package cardproof.link;

/**
 * Rail and current of one step; 65535 stands for that or more.
 *
 * @param railMv at the end, millivolts
 * @param lowestRailMv lowest in the step
 * @param currentMa at the end, milliamps
 * @param highestCurrentMa highest in the step
 */
public record StepSense(int railMv, int lowestRailMv, int currentMa, int highestCurrentMa) {}
