package cardproof.files;

import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/**
 * What a wiring without diodes in its signals does at rest: a net is on when a closed contact, a
 * wire or a fuse leads to it from the supply or from a driven line, and a relay is operated when
 * one end of its coil is. Just enough to see that what was read is the machine that was meant.
 */
final class ContactSketch {
  private final Wiring wiring;
  private final BitSet operated = new BitSet();

  ContactSketch(Wiring wiring) {
    this.wiring = wiring;
  }

  /** Nets that are on once nothing moves any more. */
  BitSet settle(BitSet drivenNets) {
    List<Relay> relays = wiring.relays();
    for (int round = 0; round <= relays.size(); round++) {
      BitSet on = on(drivenNets);
      BitSet before = (BitSet) operated.clone();
      for (int r = 0; r < relays.size(); r++) {
        operated.set(r, on.get(relays.get(r).coil1()));
      }
      if (operated.equals(before)) {
        return on;
      }
    }
    throw new IllegalStateException("never rests");
  }

  private BitSet on(BitSet driven) {
    List<int[]> joints = new ArrayList<>();
    int r = 0;
    for (Part part : wiring.parts()) {
      if (part instanceof Wire || part instanceof Fuse) {
        joints.add(new int[] {part.terminals().get(0).net(), part.terminals().get(1).net()});
      } else if (part instanceof Relay relay) {
        for (Pole pole : relay.poles()) {
          joints.add(new int[] {pole.com(), operated.get(r) ? pole.no() : pole.nc()});
        }
        r++;
      }
    }
    BitSet on = (BitSet) driven.clone();
    on.set(wiring.supply());
    int size;
    do {
      size = on.cardinality();
      for (int[] joint : joints) {
        boolean wired = joint[0] >= 0 && joint[1] >= 0;
        if (wired && (on.get(joint[0]) || on.get(joint[1]))) {
          on.set(joint[0]);
          on.set(joint[1]);
        }
      }
    } while (on.cardinality() > size);
    return on;
  }
}
