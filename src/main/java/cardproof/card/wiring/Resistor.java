package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/** A resistor between two nets. */
public record Resistor(
    String name, int first, int second, double ohms, Optional<Spot> spot, Position at)
    implements Part {

  @Override
  public List<Terminal> terminals() {
    return List.of(new Terminal("1", first), new Terminal("2", second));
  }

  @Override
  public Resistor wired(IntUnaryOperator netOf) {
    return new Resistor(name, netOf.applyAsInt(0), netOf.applyAsInt(1), ohms, spot, at);
  }
}
