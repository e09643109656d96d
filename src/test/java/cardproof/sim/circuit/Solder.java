package cardproof.sim.circuit;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Figure;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Wiring put together by hand, with short words. Supply is {@code +12V}, ground is {@code GND}. */
public final class Solder {
  public static final String PLUS = "+12V";
  public static final String GROUND = "GND";
  private static final Position HERE = new Position("card.yaml", 1, 1);

  private final Wiring.Builder builder = new Wiring.Builder();
  private final List<String> lines = new ArrayList<>();

  /** One contact of a relay in the making: com, no, nc; null for not wired. */
  public record Contact(String com, String no, String nc) {}

  public static Contact contact(String com, String no, String nc) {
    return new Contact(com, no, nc);
  }

  /** TE Connectivity / Schrack PT, 4-pole, 12 V, as its data sheet has it. */
  public static RelayType pt() {
    return type("PT-4-12V", 12_000, 192, typicalMs(15), typicalMs(10), typicalMs(18), 6, 8);
  }

  static Figure typicalMs(long ms) {
    return Figure.typical(ms * 1000);
  }

  static RelayType type(
      String name,
      long millivolts,
      double ohms,
      Figure operate,
      Figure release,
      Figure withDiode,
      long bounceNoMs,
      long bounceNcMs) {
    return new RelayType(
        name,
        name,
        4,
        millivolts,
        ohms,
        RelayType.DEFAULT_OPERATE_PERCENT,
        RelayType.DEFAULT_RELEASE_PERCENT,
        operate,
        release,
        withDiode,
        typicalMs(bounceNoMs),
        typicalMs(bounceNcMs),
        0,
        Map.of(),
        "see check values",
        HERE);
  }

  public Solder line(String name) {
    lines.add(name);
    return this;
  }

  public Solder relay(
      String name, RelayType type, String coil1, String coil2, Contact... contacts) {
    List<Pole> poles = new ArrayList<>();
    for (Contact one : contacts) {
      poles.add(new Pole(net(one.com), net(one.no), net(one.nc)));
    }
    while (poles.size() < type.poles()) {
      poles.add(new Pole(Terminal.NOT_WIRED, Terminal.NOT_WIRED, Terminal.NOT_WIRED));
    }
    builder.add(new Relay(name, type, net(coil1), net(coil2), poles, name, Optional.empty(), HERE));
    return this;
  }

  public Solder diode(String name, String anode, String cathode) {
    builder.add(new Diode(name, net(anode), net(cathode), Optional.empty(), HERE));
    return this;
  }

  public Solder resistor(String name, String first, String second, double ohms) {
    builder.add(new Resistor(name, net(first), net(second), ohms, Optional.empty(), HERE));
    return this;
  }

  public Solder lamp(String name, String first, String second, long milliamps) {
    builder.add(new Lamp(name, net(first), net(second), 12_000, milliamps, Optional.empty(), HERE));
    return this;
  }

  public Solder fuse(String name, String first, String second, long milliamps) {
    builder.add(new Fuse(name, net(first), net(second), milliamps, Optional.empty(), HERE));
    return this;
  }

  public Solder wire(String name, String first, String second) {
    builder.add(new Wire(name, net(first), net(second), Optional.empty(), HERE));
    return this;
  }

  public Wiring wiring() {
    return wiring(PLUS);
  }

  /**
   * @param supply net at which the supply comes in
   */
  public Wiring wiring(String supply) {
    return builder.build(supply, GROUND, lines, HERE);
  }

  private int net(String name) {
    return name == null ? Terminal.NOT_WIRED : builder.net(name, HERE);
  }
}
