package cardproof.card.wiring.review;

import java.util.Locale;

/** Kinds of findings. New ones are only ever added. */
public enum Kind {
  SHORT(Severity.ERROR),
  WRONG_WAY_DIODE(Severity.ERROR),
  NEVER_RESTS(Severity.ERROR),
  NO_RETURN(Severity.ERROR),
  NEVER_FED(Severity.ERROR),
  RACE(Severity.WARNING),
  NO_FLYBACK(Severity.WARNING),
  WEAK_SUPPLY(Severity.WARNING),
  FLOATING_CONTACT(Severity.WARNING),
  ONE_ENDED_NET(Severity.WARNING),
  LINE_NOT_WIRED(Severity.WARNING),
  NEVER_LIT(Severity.WARNING),
  NO_LOAD(Severity.WARNING),
  TIED_LINES(Severity.WARNING),
  OVERLOADED_DRIVE(Severity.WARNING),
  NOT_SEARCHED(Severity.WARNING);

  private final Severity severity;

  Kind(Severity severity) {
    this.severity = severity;
  }

  public Severity severity() {
    return severity;
  }

  /** In lower case with blanks: {@code no return}. */
  @Override
  public String toString() {
    return name().toLowerCase(Locale.ROOT).replace('_', ' ');
  }
}
