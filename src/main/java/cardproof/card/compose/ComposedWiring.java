package cardproof.card.compose;

import cardproof.card.Card;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Net;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Spot;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/**
 * What is soldered on several cards, and the cables between them: nets and parts under their cards'
 * names, a wire for each core.
 *
 * <p>The bench supply and its return are rails of the whole, and a lead goes from each to every
 * card, {@code keep.supply} and {@code keep.ground}: one that is missing leaves a card dead, or
 * lets its current look for another way home. The cards are laid out side by side, far enough apart
 * that no part has neighbours on another card.
 */
final class ComposedWiring {
  private static final String SUPPLY = "SUPPLY";
  private static final String GROUND = "GROUND";
  private static final double APART_MM = 1000;

  private final List<Net> nets = new ArrayList<>();
  private final List<Part> parts = new ArrayList<>();
  private final int[][] moved;
  private double nextMm;

  private ComposedWiring(int members) {
    this.moved = new int[members][];
  }

  /** Empty where of some card it is not known what is soldered. */
  static Optional<Wiring> of(
      List<Member> members, List<Cable> cables, List<Leaving> leaving, Position at) {
    if (members.stream().anyMatch(member -> member.card().wiring().isEmpty())) {
      return Optional.empty();
    }
    ComposedWiring whole = new ComposedWiring(members.size());
    int supply = whole.net(name(members, true), at);
    int ground = whole.net(name(members, false), at);
    for (int m = 0; m < members.size(); m++) {
      whole.add(m, members.get(m), supply, ground, at);
    }
    cables.forEach(cable -> whole.add(cable, members));
    List<Integer> lines = new ArrayList<>();
    leaving.forEach(one -> lines.addAll(whole.nets(one.bus(), members)));
    return Optional.of(new Wiring(whole.nets, supply, ground, lines, whole.parts, at));
  }

  /** The cards' own name for a rail where they agree. */
  private static String name(List<Member> members, boolean supply) {
    List<String> names =
        members.stream()
            .map(member -> member.card().wiring().orElseThrow())
            .map(own -> own.nets().get(supply ? own.supply() : own.ground()).name())
            .distinct()
            .toList();
    return names.size() == 1 ? names.get(0) : supply ? SUPPLY : GROUND;
  }

  private int net(String name, Position at) {
    nets.add(new Net(name, at));
    return nets.size() - 1;
  }

  private void add(int number, Member member, int supply, int ground, Position at) {
    Wiring own = member.card().wiring().orElseThrow();
    int[] to = new int[own.nets().size()];
    for (int n = 0; n < to.length; n++) {
      Net net = own.nets().get(n);
      to[n] = net(member.own(net.name()), net.at());
    }
    moved[number] = to;
    lead("supply", supply, to[own.supply()], member, at);
    lead("ground", ground, to[own.ground()], member, at);
    double fromMm = nextMm;
    own.parts().forEach(part -> parts.add(moved(part, member, to, fromMm)));
    nextMm =
        parts.stream().flatMap(part -> part.spot().stream()).mapToDouble(Spot::xMm).max().orElse(0)
            + APART_MM;
  }

  private void lead(String word, int rail, int net, Member member, Position at) {
    Wiring own = member.card().wiring().orElseThrow();
    String name = word;
    while (own.part(name).isPresent()) {
      name += "-lead";
    }
    parts.add(new Wire(member.own(name), rail, net, Optional.empty(), at));
  }

  private static Part moved(Part part, Member member, int[] to, double byMm) {
    List<Terminal> terminals = part.terminals();
    IntUnaryOperator netOf =
        t -> terminals.get(t).wired() ? to[terminals.get(t).net()] : Terminal.NOT_WIRED;
    Optional<Spot> spot = part.spot().map(own -> new Spot(own.xMm() + byMm, own.yMm()));
    return placed(part.wired(netOf), member, spot);
  }

  private static Part placed(Part part, Member member, Optional<Spot> spot) {
    String name = member.own(part.name());
    if (part instanceof Relay r) {
      String socket = member.own(r.socket());
      return new Relay(name, r.type(), r.coil1(), r.coil2(), r.poles(), socket, spot, r.at());
    }
    if (part instanceof Diode d) {
      return new Diode(name, d.anode(), d.cathode(), spot, d.at());
    }
    if (part instanceof Resistor r) {
      return new Resistor(name, r.first(), r.second(), r.ohms(), spot, r.at());
    }
    if (part instanceof Lamp l) {
      return new Lamp(name, l.first(), l.second(), l.millivolts(), l.milliamps(), spot, l.at());
    }
    if (part instanceof Fuse f) {
      return new Fuse(name, f.first(), f.second(), f.milliamps(), spot, f.at());
    }
    Wire w = (Wire) part;
    return new Wire(name, w.first(), w.second(), spot, w.at());
  }

  private void add(Cable cable, List<Member> members) {
    List<Integer> from = nets(cable.from(), members);
    List<Integer> to = nets(cable.to(), members);
    for (int bit = 0; bit < from.size(); bit++) {
      parts.add(
          new Wire(
              cable.cores().get(bit), from.get(bit), to.get(bit), Optional.empty(), cable.at()));
    }
  }

  private List<Integer> nets(MemberBus bus, List<Member> members) {
    Card card = members.get(bus.member()).card();
    Wiring own = card.wiring().orElseThrow();
    List<Integer> found = new ArrayList<>();
    for (int bit = 0; bit < bus.in(members).width(); bit++) {
      int line = card.firstLine(bus.busIndex()) + bit;
      found.add(moved[bus.member()][own.lineNets().get(line)]);
    }
    return found;
  }
}
