package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/**
 * Levels kept up to date switch by switch against the whole net worked out anew by nodal analysis
 * that knows no reachability: nets of anything at all.
 */
class NetsProperties {
  private static final double VOLTS = 12;
  private static final int FLIPS = 40;

  /** Both leak a nanosiemens at a floating net, but in other places. */
  private static final double SAME_VOLTS = 1e-3;

  @Property(tries = 500)
  void sameAsTheWholeNetAnew(@ForAll long seed) {
    Random random = new Random(seed);
    check(random, anything(random, 3 + random.nextInt(14), random.nextInt(4)));
  }

  @Property(tries = 30)
  void sameOnAnAdderWithAFault(@ForAll long seed) {
    Random random = new Random(seed);
    List<Wiring> faulty =
        List.copyOf(SingleFaults.of(Adders.ripple(2, Solder.pt(), true, true)).values());
    check(random, faulty.get(random.nextInt(faulty.size())));
  }

  private static final double SAME_AMPS = 1e-6;

  private static Wiring anything(Random random, int nets, int diodesPer4Nets) {
    Solder solder = new Solder();
    solder.line(net(random, nets)).line(net(random, nets));
    for (int i = 0; i < nets; i++) {
      solder.resistor("R" + i, net(random, nets), net(random, nets), 50 + random.nextInt(1000));
      if (random.nextInt(4) < diodesPer4Nets) {
        solder.diode("D" + i, net(random, nets), net(random, nets));
      }
      if (i % 3 == 0) {
        solder.relay(
            "K" + i,
            Solder.pt(),
            net(random, nets),
            net(random, nets),
            Solder.contact(net(random, nets), net(random, nets), net(random, nets)),
            Solder.contact(net(random, nets), net(random, nets), net(random, nets)));
      }
    }
    return solder.wiring();
  }

  private static String net(Random random, int nets) {
    int n = random.nextInt(nets + 4);
    return n < nets ? "n" + n : n < nets + 2 ? Solder.GROUND : Solder.PLUS;
  }

  private static void check(Random random, Wiring wiring) {
    BitSet watched = new BitSet();
    watched.set(0, Math.min(2, wiring.lineNets().size()));
    Elements parts = new Elements(FaultyWiring.always(wiring), watched, 1000);
    boolean[] closed = new boolean[parts.switches.size()];
    Nets nets = new Nets(new Topology(parts, new BitSet()), closed, VOLTS);
    Loads loads = new Loads(parts);
    loads.startOver(nets);
    WholeNet whole = new WholeNet(wiring, VOLTS, watched, 1000);
    for (int flip = 0; flip < FLIPS; flip++) {
      for (int more = random.nextInt(3); more >= 0 && closed.length > 0; more--) {
        int one = random.nextInt(closed.length);
        nets.set(one, !closed[one]);
      }
      nets.settle();
      loads.update(nets);
      List<int[]> pairs = new ArrayList<>();
      for (int one = 0; one < closed.length; one++) {
        if (closed[one]) {
          Elements.Between between = parts.switches.get(one);
          pairs.add(new int[] {between.first(), between.second()});
        }
      }
      whole.solve(pairs);
      assertThat(nets.shorts > 0).as("short, flip %d", flip).isEqualTo(whole.shorted);
      if (!whole.shorted && whole.converged) {
        compare(nets, whole, flip);
        assertThat(loads.total() / 1e9)
            .as("amperes, flip %d", flip)
            .isCloseTo(whole.amps(), within(SAME_AMPS));
      }
    }
  }

  private static void compare(Nets nets, WholeNet whole, int flip) {
    for (int net = 0; net < whole.volts.length; net++) {
      assertThat(nets.volts[nets.topology.nodeOfNet[net]])
          .as("volts of %s, flip %d", whole.wiring.nets().get(net), flip)
          .isCloseTo(whole.volts[net], within(SAME_VOLTS));
    }
  }
}
