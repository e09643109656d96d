package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/** Something with solder points. */
public sealed interface Part permits Relay, Diode, Resistor, Lamp, Fuse, Wire {
  /** The reference, as printed beside it: {@code K3}, {@code BIT[3].A}. Unique on a card. */
  String name();

  /** Where the file names it; for a part in a block, the place inside the block. */
  Position at();

  /** Where it sits, where the file says so. */
  Optional<Spot> spot();

  /** All its solder points in a fixed order, those with no wire among them. */
  List<Terminal> terminals();

  /**
   * The same part with other nets.
   *
   * @param netOf from the index of a terminal in {@link #terminals} to the number of a net
   */
  Part wired(IntUnaryOperator netOf);
}
