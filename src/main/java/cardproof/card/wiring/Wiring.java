package cardproof.card.wiring;

import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * All that is soldered on a card. Immutable.
 *
 * @param nets by number
 * @param supply number of the net at which the bench supply comes in, before any fuse
 * @param ground number of the net that the supply's current returns by
 * @param lineNets by {@link cardproof.card.Line#index}: the net that the line is
 * @param parts in the order of the file, blocks and repeats spelled out
 * @param powerPins pins ({@code J9.1}) by which supply and ground leave the card, by number of the
 *     net; empty where the file says nothing of them
 */
public record Wiring(
    List<Net> nets,
    int supply,
    int ground,
    List<Integer> lineNets,
    List<Part> parts,
    Position at,
    Map<Integer, String> powerPins) {
  public Wiring {
    nets = List.copyOf(nets);
    lineNets = List.copyOf(lineNets);
    parts = List.copyOf(parts);
    powerPins = Map.copyOf(powerPins);
    if (supply == ground) {
      throw new IllegalArgumentException("supply and ground are one net");
    }
  }

  /** A wiring of which nobody said where power comes in. */
  public Wiring(
      List<Net> nets,
      int supply,
      int ground,
      List<Integer> lineNets,
      List<Part> parts,
      Position at) {
    this(nets, supply, ground, lineNets, parts, at, Map.of());
  }

  public List<Relay> relays() {
    return parts.stream().filter(Relay.class::isInstance).map(Relay.class::cast).toList();
  }

  public Optional<Part> part(String name) {
    return parts.stream().filter(part -> part.name().equals(name)).findFirst();
  }

  /** Number of a net by its name, or -1. */
  public int net(String name) {
    for (int n = 0; n < nets.size(); n++) {
      if (nets.get(n).name().equals(name)) {
        return n;
      }
    }
    return -1;
  }

  /** The same nets with other parts. */
  public Wiring withParts(List<Part> others) {
    return new Wiring(nets, supply, ground, lineNets, others, at, powerPins);
  }

  /** The same with the pins of supply and ground. */
  public Wiring withPowerPins(Map<Integer, String> pins) {
    return new Wiring(nets, supply, ground, lineNets, parts, at, pins);
  }

  /** A wiring in the making; nets come into being when they are first named. Not thread safe. */
  public static final class Builder {
    private final ArrayList<Net> nets = new ArrayList<>();
    private final Map<String, Integer> numbers = new HashMap<>();
    private final ArrayList<Part> parts = new ArrayList<>();

    public int net(String name, Position at) {
      return numbers.computeIfAbsent(
          name,
          fresh -> {
            nets.add(new Net(fresh, at));
            return nets.size() - 1;
          });
    }

    public Builder add(Part part) {
      parts.add(part);
      return this;
    }

    /**
     * @param lineNames by line index; a line is the net of its own name
     */
    public Wiring build(String supply, String ground, List<String> lineNames, Position at) {
      int plus = net(supply, at);
      int minus = net(ground, at);
      List<Integer> lines = lineNames.stream().map(name -> net(name, at)).toList();
      return new Wiring(nets, plus, minus, lines, parts, at);
    }
  }
}
