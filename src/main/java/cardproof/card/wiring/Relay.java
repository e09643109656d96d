package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/**
 * A relay: a coil without polarity and change-over poles. Terminals are {@code coil1 coil2}, then
 * {@code com1 no1 nc1}, {@code com2 no2 nc2} and so on. A diode across the coil is a part of its
 * own.
 *
 * @param coil1 number of a net, or {@link Terminal#NOT_WIRED}
 * @param poles as many as the type has; unused ones are there, not wired
 * @param socket tag of the socket it sits in; its name where the file gives none
 */
public record Relay(
    String name,
    RelayType type,
    int coil1,
    int coil2,
    List<Pole> poles,
    String socket,
    Optional<Spot> spot,
    Position at)
    implements Part {
  public static final int COIL_TERMINALS = 2;
  public static final int POLE_TERMINALS = 3;

  public Relay {
    poles = List.copyOf(poles);
    if (poles.size() != type.poles()) {
      throw new IllegalArgumentException(
          name + " has " + poles.size() + " poles, its type " + type.poles());
    }
  }

  @Override
  public List<Terminal> terminals() {
    List<Terminal> all = new ArrayList<>(COIL_TERMINALS + POLE_TERMINALS * poles.size());
    all.add(new Terminal("coil1", coil1));
    all.add(new Terminal("coil2", coil2));
    for (int p = 0; p < poles.size(); p++) {
      all.add(new Terminal("com" + (p + 1), poles.get(p).com()));
      all.add(new Terminal("no" + (p + 1), poles.get(p).no()));
      all.add(new Terminal("nc" + (p + 1), poles.get(p).nc()));
    }
    return all;
  }

  @Override
  public Relay wired(IntUnaryOperator netOf) {
    List<Pole> others = new ArrayList<>(poles.size());
    for (int p = 0; p < poles.size(); p++) {
      int first = COIL_TERMINALS + POLE_TERMINALS * p;
      others.add(
          new Pole(
              netOf.applyAsInt(first), netOf.applyAsInt(first + 1), netOf.applyAsInt(first + 2)));
    }
    return new Relay(
        name, type, netOf.applyAsInt(0), netOf.applyAsInt(1), others, socket, spot, at);
  }
}
