package cardproof.sim.circuit;

import cardproof.card.Line;
import cardproof.card.Role;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.List;
import java.util.function.ToIntFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What is stuck at a rail. It makes no short. A line is parted from the fixture. An output's
 * outside then lies at the rail while the card's own side goes on. An input's net is joined to the
 * rail, and at ground every contact, diode, fuse and wire on it is parted, so that loads see ground
 * and nothing comes from the net; at supply they stay and are fed. A shared line at ground is
 * parted and no more, so that each side sees what it drives itself; at supply both sides lie there.
 * A net inside is as an input's. A hard short is a bridge to ground.
 */
final class Stuck {
  private final Wiring wiring;
  private final List<Line> lines;
  private final Rework rework;

  Stuck(Wiring wiring, List<Line> lines, Rework rework) {
    this.wiring = wiring;
    this.lines = lines;
    this.rework = rework;
  }

  /**
   * @param outside end of the wire at the line's pin
   */
  void line(Line line, int outside, boolean atSupply, When when) {
    int inside = wiring.lineNets().get(line.index());
    Role role = line.bus().role();
    boolean seesRail = role == Role.OUTPUT || role == Role.SHARED && atSupply;
    if (seesRail) {
      rework.move(outside, rail(atSupply), when);
    } else {
      rework.cut(outside, when);
    }
    if (role == Role.INPUT || role == Role.SHARED && atSupply) {
      hold(inside, atSupply, when);
    }
  }

  /**
   * A net inside; a line that is this net, under whatever name, sees it, but does not drive it.
   *
   * @param wireOf the end of the wire at a line's pin
   */
  void net(int net, ToIntFunction<Line> wireOf, boolean atSupply, When when) {
    for (Line line : lines) {
      if (wiring.lineNets().get(line.index()) == net && line.bus().role().driven()) {
        rework.cut(wireOf.applyAsInt(line), when);
      }
    }
    hold(net, atSupply, when);
  }

  private void hold(int net, boolean atSupply, When when) {
    if (!atSupply) {
      wiring.parts().stream()
          .filter(Stuck::feeds)
          .flatMap(part -> contacts(net, part))
          .forEach(end -> rework.cut(end, when));
    }
    rework.join(net, rail(atSupply), when);
  }

  /** Whether current may come out of a part with no load in it. */
  private static boolean feeds(Part part) {
    return part instanceof Relay
        || part instanceof Diode
        || part instanceof Fuse
        || part instanceof Wire;
  }

  /** The ends of a part on a net, the coil's left out. */
  private Stream<Integer> contacts(int net, Part part) {
    int coil = part instanceof Relay ? Relay.COIL_TERMINALS : 0;
    int first = rework.end(part.name(), 0) + coil;
    return IntStream.of(rework.endsOn(net, part)).filter(end -> end >= first).boxed();
  }

  private int rail(boolean supply) {
    return supply ? wiring.supply() : wiring.ground();
  }
}
