package cardproof.card.compose;

import cardproof.text.Position;
import java.util.List;

/**
 * Two buses of equal width joined core by core, bit 0 to bit 0.
 *
 * @param from an output or a shared bus
 * @param to an input, which has no second cable, or a shared bus
 * @param cores what each core is called, bit 0 first
 */
public record Cable(MemberBus from, MemberBus to, List<String> cores, Position at) {
  public Cable {
    cores = List.copyOf(cores);
  }
}
