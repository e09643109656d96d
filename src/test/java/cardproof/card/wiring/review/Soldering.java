package cardproof.card.wiring.review;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Figure;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;

/** Wirings put together in code; supply comes in at {@code +12V}, ground is {@code GND}. */
final class Soldering {
  static final Position HERE = new Position("card.yaml", 1, 1);

  /** TE/Schrack PT, 4 poles, 12 V (data sheet): 15 / 10 / 18 ms, bounce 6 / 8 ms, 192 ohm. */
  static final RelayType PT =
      new RelayType(
          "PT-4-12V",
          "small relay",
          4,
          12_000,
          192,
          RelayType.DEFAULT_OPERATE_PERCENT,
          RelayType.DEFAULT_RELEASE_PERCENT,
          Figure.typical(15_000),
          Figure.typical(10_000),
          Figure.typical(18_000),
          Figure.typical(6_000),
          Figure.typical(8_000),
          30_000_000,
          Map.of(),
          "TE Connectivity / Schrack PT",
          HERE);

  private final Wiring.Builder builder = new Wiring.Builder();
  private final List<EdgeLine> lines = new ArrayList<>();
  private final Map<String, UnaryOperator<Part>> changes = new LinkedHashMap<>();
  private final List<String> without = new ArrayList<>();
  private String supply = "+12V";

  Soldering supply(String net) {
    supply = net;
    return this;
  }

  Soldering input(String name) {
    return line(name, true, false);
  }

  Soldering output(String name) {
    return line(name, false, true);
  }

  Soldering line(String name, boolean driven, boolean watched) {
    lines.add(new EdgeLine(name, "J1." + (lines.size() + 1), driven, watched, HERE));
    return this;
  }

  private int net(String name) {
    return name.isEmpty() || name.equals("-") ? Terminal.NOT_WIRED : builder.net(name, HERE);
  }

  /**
   * @param poles com, no and nc of one pole each, apart by blanks, {@code -} where not wired
   */
  Soldering bare(String name, String coil1, String coil2, String... poles) {
    List<Pole> all = new ArrayList<>();
    for (int p = 0; p < PT.poles(); p++) {
      String[] ends = p < poles.length ? poles[p].split(" ") : new String[] {"-", "-", "-"};
      all.add(new Pole(net(ends[0]), net(ends[1]), net(ends[2])));
    }
    return add(new Relay(name, PT, net(coil1), net(coil2), all, name, Optional.empty(), HERE));
  }

  /** The same with a diode across its coil, cathode at coil1. */
  Soldering relay(String name, String coil1, String coil2, String... poles) {
    return bare(name, coil1, coil2, poles).diode(name + ".flyback", coil2, coil1);
  }

  Soldering diode(String name, String anode, String cathode) {
    return add(new Diode(name, net(anode), net(cathode), Optional.empty(), HERE));
  }

  Soldering lamp(String name, String first, String second) {
    return add(new Lamp(name, net(first), net(second), 12_000, 40, Optional.empty(), HERE));
  }

  Soldering resistor(String name, String first, String second, double ohms) {
    return add(new Resistor(name, net(first), net(second), ohms, Optional.empty(), HERE));
  }

  Soldering fuse(String name, String first, String second) {
    return add(new Fuse(name, net(first), net(second), 3_000, Optional.empty(), HERE));
  }

  Soldering wire(String name, String first, String second) {
    return add(new Wire(name, net(first), net(second), Optional.empty(), HERE));
  }

  private Soldering add(Part part) {
    builder.add(part);
    return this;
  }

  /** Leaves a part out that was put in. */
  Soldering without(String name) {
    without.add(name);
    return this;
  }

  /** Moves a terminal of a part that was put in to another net; {@code -} takes it off. */
  Soldering move(String part, String terminal, String net) {
    int to = net(net);
    changes.merge(
        part,
        one -> moved(one, terminal, to),
        (before, then) -> one -> then.apply(before.apply(one)));
    return this;
  }

  private static Part moved(Part part, String terminal, int net) {
    List<Terminal> terminals = part.terminals();
    return part.wired(t -> terminals.get(t).name().equals(terminal) ? net : terminals.get(t).net());
  }

  List<EdgeLine> lines() {
    return lines;
  }

  Wiring wiring() {
    Wiring whole = builder.build(supply, "GND", lines.stream().map(EdgeLine::name).toList(), HERE);
    return whole.withParts(
        whole.parts().stream()
            .filter(part -> !without.contains(part.name()))
            .map(part -> changes.getOrDefault(part.name(), UnaryOperator.identity()).apply(part))
            .toList());
  }

  Review review() {
    return review(0);
  }

  Review review(long driveMilliamps) {
    return Review.of(wiring(), lines, new ReviewSettings(12_000, driveMilliamps));
  }

  /** Findings of one kind, as sentences. */
  List<String> found(Kind kind) {
    return review().findings().stream()
        .filter(finding -> finding.kind() == kind)
        .map(finding -> finding.problem().toString())
        .toList();
  }
}
