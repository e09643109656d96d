package cardproof.sim.circuit;

import java.util.List;

/**
 * What went on in a simulated card that a bench would not show, or not clearly.
 *
 * @param shortGlitches shorts of the supply that were over before it tripped
 * @param weakReadings how often a watched line came to stand between 40 and 60 % of the supply
 * @param uncertainCoils how often a coil came so near to a threshold that a real one might do
 *     either
 * @param limited how often the supply came to its current limit
 * @param blownFuses names of fuses that are open, in the order in which they opened
 */
public record CircuitWarnings(
    long shortGlitches,
    long weakReadings,
    long uncertainCoils,
    long limited,
    List<String> blownFuses) {
  public CircuitWarnings {
    blownFuses = List.copyOf(blownFuses);
  }
}
