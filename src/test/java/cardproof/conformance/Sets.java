package cardproof.conformance;

import java.util.BitSet;

/** Sets of channels. */
final class Sets {
  private Sets() {}

  static BitSet of(int... channels) {
    BitSet set = new BitSet();
    for (int channel : channels) {
      set.set(channel);
    }
    return set;
  }

  static BitSet all(int count) {
    BitSet set = new BitSet();
    set.set(0, count);
    return set;
  }
}
