package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/** A fuse, a plain wire until more than its rating flows. */
public record Fuse(
    String name, int first, int second, long milliamps, Optional<Spot> spot, Position at)
    implements Part {

  @Override
  public List<Terminal> terminals() {
    return List.of(new Terminal("1", first), new Terminal("2", second));
  }

  @Override
  public Fuse wired(IntUnaryOperator netOf) {
    return new Fuse(name, netOf.applyAsInt(0), netOf.applyAsInt(1), milliamps, spot, at);
  }
}
