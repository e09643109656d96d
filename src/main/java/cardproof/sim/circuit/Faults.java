package cardproof.sim.circuit;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.fault.Bridged;
import cardproof.card.fault.CoilOpen;
import cardproof.card.fault.ContactNeverMakes;
import cardproof.card.fault.ContactWelded;
import cardproof.card.fault.DiodeBackwards;
import cardproof.card.fault.DiodeShort;
import cardproof.card.fault.Fault;
import cardproof.card.fault.Intermittent;
import cardproof.card.fault.JointMissing;
import cardproof.card.fault.LineSite;
import cardproof.card.fault.LineStuck;
import cardproof.card.fault.LinesExchanged;
import cardproof.card.fault.NetSite;
import cardproof.card.fault.NetStuck;
import cardproof.card.fault.PartOpen;
import cardproof.card.fault.RelaySlow;
import cardproof.card.fault.Site;
import cardproof.card.fault.TerminalSite;
import cardproof.card.fault.TerminalsExchanged;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Wiring;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Puts faults into a wiring: what a person would draw who drew the faulty card.
 *
 * <p>Several are put from the outside in, in whatever order they are given: wires that changed
 * places, joints, what is stuck, bridges, then what is wrong inside the parts. So a bridge at a
 * terminal without a joint runs to the terminal, not to the wire that should be there, and a
 * backwards diode is turned between the joints it has got. Faults of one sort that meet at one
 * place are put in the order given.
 *
 * <p>A fault that comes and goes gets nets of its own, joined by switches to where the ends belong
 * while it is away and to where it puts them while it is there; its switches share one spell.
 */
public final class Faults {
  private final Wiring wiring;
  private final long seed;
  private final Rework rework;
  private final Stuck stuck;
  private final int[] wireAtPin;
  private final Map<String, Long> slowerByUs = new HashMap<>();

  private Faults(Wiring wiring, Card card, long seed) {
    this.wiring = wiring;
    this.seed = seed;
    this.rework = new Rework(wiring);
    this.stuck = new Stuck(wiring, card.lines(), rework);
    this.wireAtPin = IntStream.range(0, card.lines().size()).toArray();
  }

  /**
   * @param wiring of the card, sound
   * @param faults of that card, each once
   * @param seed of the spells of those that come and go; a spell hangs on it and on the fault's
   *     name alone
   * @throws IllegalArgumentException for a fault of another card
   */
  public static FaultyWiring put(Wiring wiring, Card card, List<Fault> faults, long seed) {
    Faults all = new Faults(wiring, card, seed);
    faults.stream().sorted(Comparator.comparingInt(fault -> depth(core(fault)))).forEach(all::put);
    return new FaultyWiring(all.rework.wiring(), all.rework.switches(), all.slowerByUs);
  }

  private static Fault core(Fault fault) {
    return fault instanceof Intermittent some ? some.fault() : fault;
  }

  /** How far inside the card it is. */
  private static int depth(Fault fault) {
    if (fault instanceof LinesExchanged || fault instanceof TerminalsExchanged) {
      return 0;
    }
    if (fault instanceof JointMissing) {
      return 1;
    }
    if (fault instanceof LineStuck || fault instanceof NetStuck) {
      return 2;
    }
    return fault instanceof Bridged ? 3 : 4;
  }

  private void put(Fault fault) {
    Optional<Spell> spell =
        fault instanceof Intermittent some
            ? Optional.of(
                new Spell(
                    some.probability(),
                    some.spellUs() * 1000,
                    Draws.key(seed, some.fault().name())))
            : Optional.empty();
    Fault core = core(fault);
    When when = new When(core.name(), spell);
    if (core instanceof LinesExchanged two) {
      exchange(two.first().index(), two.second().index(), when);
    } else if (core instanceof TerminalsExchanged two) {
      rework.exchange(end(two.first()), end(two.second()), when);
    } else if (core instanceof JointMissing one) {
      rework.cut(joint(one.at()), when);
    } else if (core instanceof LineStuck one) {
      stuck.line(one.line(), wireOf(one.line()), one.atSupply(), when);
    } else if (core instanceof NetStuck one) {
      stuck.net(net(one.net()), this::wireOf, one.atSupply(), when);
    } else if (core instanceof Bridged two) {
      rework.join(metal(two.first()), metal(two.second()), when);
    } else if (core instanceof CoilOpen one) {
      rework.cut(rework.end(one.relay(), "coil1"), when);
    } else if (core instanceof ContactNeverMakes one) {
      rework.cut(rework.end(one.relay(), one.contact().terminal(one.pole())), when);
    } else if (core instanceof ContactWelded one) {
      welded(one, when);
    } else if (core instanceof PartOpen one) {
      rework.cut(rework.end(one.part(), 0), when);
    } else if (core instanceof DiodeShort one) {
      int anode = rework.netOf(rework.end(one.diode(), 0));
      rework.join(anode, rework.netOf(rework.end(one.diode(), 1)), when);
    } else if (core instanceof DiodeBackwards one) {
      rework.exchange(rework.end(one.diode(), 0), rework.end(one.diode(), 1), when);
    } else if (core instanceof RelaySlow one) {
      Relay relay = (Relay) rework.part(one.relay());
      slowerByUs.merge(one.relay(), one.slowerByUs(relay.type().operate().nominalUs()), Long::sum);
    } else {
      throw new IllegalArgumentException("fault not known to this simulation: " + core.name());
    }
  }

  private void exchange(int first, int second, When when) {
    rework.exchange(rework.lineEnd(wireAtPin[first]), rework.lineEnd(wireAtPin[second]), when);
    if (when.always()) {
      int kept = wireAtPin[first];
      wireAtPin[first] = wireAtPin[second];
      wireAtPin[second] = kept;
    }
  }

  private int joint(Site site) {
    return site instanceof LineSite one ? wireOf(one.line()) : end((TerminalSite) site);
  }

  /** The fixture's side of the wire at a line's pin. */
  private int wireOf(Line line) {
    return rework.lineEnd(wireAtPin[line.index()]);
  }

  private int end(TerminalSite site) {
    return rework.end(site.part(), site.terminal());
  }

  /** The net that a bridge at a place runs to; of a line that of the card's side. */
  private int metal(Site site) {
    if (site instanceof LineSite one) {
      return wiring.lineNets().get(one.line().index());
    }
    return site instanceof TerminalSite one
        ? rework.metal(end(one), one.name())
        : net(((NetSite) site).net());
  }

  private int net(String name) {
    int net = wiring.net(name);
    if (net < 0) {
      throw new IllegalArgumentException("this wiring has no net " + name);
    }
    return net;
  }

  private void welded(ContactWelded one, When when) {
    int com = rework.netOf(rework.end(one.relay(), "com" + one.pole()));
    String contact = one.contact().terminal(one.pole());
    rework.join(com, rework.netOf(rework.end(one.relay(), contact)), when);
    rework.cut(rework.end(one.relay(), one.contact().other().terminal(one.pole())), when);
  }
}
