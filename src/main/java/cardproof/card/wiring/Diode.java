package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/** A silicon diode: 0.7 V and 1 ohm forward, nothing backward. */
public record Diode(String name, int anode, int cathode, Optional<Spot> spot, Position at)
    implements Part {
  public static final double FORWARD_VOLTS = 0.7;
  public static final double FORWARD_OHMS = 1.0;

  @Override
  public List<Terminal> terminals() {
    return List.of(new Terminal("anode", anode), new Terminal("cathode", cathode));
  }

  @Override
  public Diode wired(IntUnaryOperator netOf) {
    return new Diode(name, netOf.applyAsInt(0), netOf.applyAsInt(1), spot, at);
  }
}
