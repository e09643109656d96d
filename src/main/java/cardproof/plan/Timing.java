package cardproof.plan;

/**
 * The times a step is held to.
 *
 * @param settleUs latest change of any output; of one bus see {@link #limitUs}
 * @param busSettleUs by bus index, 0 where the general limit holds
 * @param quietUs quiet window
 * @param watchUs end of watching, at least the longest limit plus the quiet window
 */
public record Timing(long settleUs, long[] busSettleUs, long quietUs, long watchUs) {
  public long limitUs(int busIndex) {
    return busSettleUs[busIndex] == 0 ? settleUs : busSettleUs[busIndex];
  }

  /** The longest limit of any bus. */
  public long longestLimitUs() {
    long longest = settleUs;
    for (long limitUs : busSettleUs) {
      longest = Math.max(longest, limitUs);
    }
    return longest;
  }
}
