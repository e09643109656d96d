package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/** An indicator, taken as the resistor that its rating makes it. */
public record Lamp(
    String name,
    int first,
    int second,
    long millivolts,
    long milliamps,
    Optional<Spot> spot,
    Position at)
    implements Part {
  /** What it is at its rated voltage. */
  public double ohms() {
    return (double) millivolts / milliamps;
  }

  @Override
  public List<Terminal> terminals() {
    return List.of(new Terminal("1", first), new Terminal("2", second));
  }

  @Override
  public Lamp wired(IntUnaryOperator netOf) {
    return new Lamp(
        name, netOf.applyAsInt(0), netOf.applyAsInt(1), millivolts, milliamps, spot, at);
  }
}
