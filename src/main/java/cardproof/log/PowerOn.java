package cardproof.log;

import java.util.Objects;

/**
 * The card's supply came on before a vector, or was found to be on.
 *
 * @param vector number of the first vector after it
 * @param how who switched it
 */
public record PowerOn(long vector, How how) {
  public PowerOn {
    Objects.requireNonNull(how);
  }

  /** Who switched a card's supply on. Codes are those of the log and stay as they are. */
  public enum How {
    /** It was said to be on already; it may have been for long. */
    FOUND_ON(0),
    /** By hand, when asked to. */
    BY_HAND(1),
    /** By the fixture. */
    BY_FIXTURE(2),
    /** On the simulated bench. */
    SIMULATED(3);

    private final int code;

    How(int code) {
      this.code = code;
    }

    int code() {
      return code;
    }

    /** Whether the card was without power just before. */
    public boolean isNewPower() {
      return this != FOUND_ON;
    }

    static How ofCode(int code) {
      return values()[code];
    }
  }
}
