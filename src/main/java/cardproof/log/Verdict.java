package cardproof.log;

import java.sql.SQLException;
import java.util.Locale;

/**
 * What was found of a vector. Declared worst first, so that the least of several is the one that
 * counts; a pass comes behind all that is none, and before what was not judged at all.
 */
public enum Verdict {
  /** A line kept changing far beyond bounce time. */
  CHATTER(1),
  /**
   * The supply fell below what the card's relays need, or was at its limit: what the lines did says
   * nothing of the card.
   */
  SUPPLY(7),
  /** Still moving when the time limit ended. */
  UNSETTLED(2),
  /** Settled, and some cared-for bit differs. */
  WRONG(3),
  /** Right in the end, after the line's limit. */
  LATE(4),
  /** Right in the end, but a line that had to hold still moved. */
  DISTURBED(5),
  /** Never judged; the record says why. */
  UNTESTED(6),
  /** Right, in time, and still where it had to be. */
  PASS(0),
  /** A trial of a sweep, which may as well not work: nothing was judged. */
  MEASURED(8);

  private final int code;

  Verdict(int code) {
    this.code = code;
  }

  /** The design's word for it, in lower case. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** Whether something was found that should not be. */
  public boolean isFailure() {
    return this != PASS && this != UNTESTED && this != MEASURED;
  }

  /** How the database writes it; never reused, only appended to. */
  int code() {
    return code;
  }

  static Verdict ofCode(int code) throws SQLException {
    for (Verdict verdict : values()) {
      if (verdict.code == code) {
        return verdict;
      }
    }
    throw new SQLException("no verdict has the code " + code);
  }
}
