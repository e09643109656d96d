package cardproof.run;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/** A sound card as its wiring has it, taken from pattern to pattern; tells what each load takes. */
public interface RestModel {
  /** All that may take current, in a fixed order. */
  List<RestLoad> loads();

  /** The supply is switched; it is on at first. */
  void power(boolean on);

  /**
   * Drives exactly these lines, by index over the card, and lets the card come to rest.
   *
   * @return milliamps by load; empty where it never rests
   */
  Optional<double[]> rest(BitSet driven);
}
