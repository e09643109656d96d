package cardproof.card.fault;

import java.math.BigDecimal;
import java.util.List;

/**
 * A fault that comes and goes. Time is cut into spells of one length, and in each of them the fault
 * is there or not, by chance.
 *
 * @param fault what comes and goes; a slow relay does not
 * @param perMille how likely it is in each spell, 1 to 999
 * @param spellUs length of a spell, {@link #LEAST_SPELL_US} to {@link #MOST_SPELL_US}
 */
public record Intermittent(Fault fault, int perMille, long spellUs) implements Fault {
  public static final long LEAST_SPELL_US = 100;
  public static final long MOST_SPELL_US = 3_600_000_000L;
  static final int CERTAIN = 1000;

  public Intermittent {
    if (fault instanceof Intermittent || fault instanceof RelaySlow) {
      throw new IllegalArgumentException(fault.name() + " cannot come and go");
    }
    if (perMille <= 0
        || perMille >= CERTAIN
        || spellUs < LEAST_SPELL_US
        || spellUs > MOST_SPELL_US) {
      throw new IllegalArgumentException(perMille + " of 1000 spells of " + spellUs + " us");
    }
  }

  public double probability() {
    return perMille / (double) CERTAIN;
  }

  /** {@code K3.no2 never makes, in 10 % of spells of 5 ms}. */
  @Override
  public String name() {
    String percent = BigDecimal.valueOf(perMille, 1).stripTrailingZeros().toPlainString();
    return fault.name() + ", in " + percent + " % of spells of " + Spans.text(spellUs);
  }

  @Override
  public FaultKind kind() {
    return fault.kind();
  }

  @Override
  public List<Site> sites() {
    return fault.sites();
  }
}
