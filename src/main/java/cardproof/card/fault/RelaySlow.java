package cardproof.card.fault;

import java.util.List;

/**
 * A relay that takes longer than it should, to operate and to release alike. By so much time, or by
 * a part of its type's stated operate time; the other one of the two is 0.
 */
public record RelaySlow(String relay, long byUs, int byPercent) implements Fault {
  public RelaySlow {
    if (byUs < 0 || byPercent < 0 || (byUs == 0) == (byPercent == 0)) {
      throw new IllegalArgumentException("slow by " + byUs + " us and " + byPercent + " %");
    }
  }

  /**
   * @param operateUs what its type states
   */
  public long slowerByUs(long operateUs) {
    return byUs + operateUs * byPercent / 100;
  }

  @Override
  public String name() {
    return relay + Verb.SLOW_BY.words + (byUs > 0 ? Spans.text(byUs) : byPercent + " %");
  }

  @Override
  public FaultKind kind() {
    return FaultKind.SLOW;
  }

  @Override
  public List<Site> sites() {
    return List.of(new PartSite(relay));
  }
}
