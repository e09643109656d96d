package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/** A soldered wire or a core of a cable: it joins two nets that have names of their own. */
public record Wire(String name, int first, int second, Optional<Spot> spot, Position at)
    implements Part {

  @Override
  public List<Terminal> terminals() {
    return List.of(new Terminal("1", first), new Terminal("2", second));
  }

  @Override
  public Wire wired(IntUnaryOperator netOf) {
    return new Wire(name, netOf.applyAsInt(0), netOf.applyAsInt(1), spot, at);
  }
}
