package cardproof.card;

import java.util.Map;

/**
 * What a card must keep to, and how long it is watched.
 *
 * @param settleUs latest change of any output
 * @param busSettleUs latest change of the outputs that have a limit of their own, by bus name
 * @param quietUs quiet window, at least the relays' quiet floor
 * @param watchUs how long a step is watched at the most, at least limit plus quiet window
 * @param holdMs longest time that one pattern may be held
 */
public record Limits(
    long settleUs, Map<String, Long> busSettleUs, long quietUs, long watchUs, long holdMs) {
  public static final long DEFAULT_HOLD_MS = 10_000;

  public Limits {
    busSettleUs = Map.copyOf(busSettleUs);
  }

  public long settleUs(Bus bus) {
    return busSettleUs.getOrDefault(bus.name(), settleUs);
  }
}
