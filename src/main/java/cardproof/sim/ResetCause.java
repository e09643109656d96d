package cardproof.sim;

/** Why a fixture was reset, in code order. */
public enum ResetCause {
  UNKNOWN,
  POWER_ON,
  RESET_PIN,
  BROWN_OUT,
  WATCHDOG,
  SOFTWARE
}
