package cardproof.log;

import java.sql.SQLException;
import java.util.Locale;

/** How a run ended, or that it has not. */
public enum RunEnd {
  /** Still open, and its process is alive or on another host. Never given to a writer. */
  RUNNING(0),
  /** Every vector of the plan was applied. */
  FINISHED(1),
  /** The operator stopped it. */
  STOPPED(2),
  LINK_LOST(3),
  /** The card or its supply tripped, chatter included. */
  TRIPPED(4),
  /** Something went wrong in the program or on its machine. */
  FAILED(5),
  /** Still open, but its process is gone. Worked out when read; never written. */
  INTERRUPTED(-1);

  private final int code;

  RunEnd(int code) {
    this.code = code;
  }

  /** In lower case, words apart: {@code link lost}. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }

  /** Whether a writer may end a run with it. */
  boolean isFinal() {
    return this != RUNNING && this != INTERRUPTED;
  }

  int code() {
    return code;
  }

  static RunEnd ofCode(int code) throws SQLException {
    for (RunEnd end : values()) {
      if (end.code == code && end != INTERRUPTED) {
        return end;
      }
    }
    throw new SQLException("no end of a run has the code " + code);
  }
}
