package cardproof.card.fault;

import cardproof.text.Problem;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;

/** Faults that one unit cannot have at once. */
final class Clashes {
  private Clashes() {}

  static Optional<Problem> between(Fault first, Fault second) {
    if (same(first, second)) {
      String given = first.name().equals(second.name()) ? "" : " as '" + first.name() + "'";
      return Optional.of(
          new Problem(where(second), "this fault is given twice" + given, "each once", ""));
    }
    return opposed(core(first), core(second))
        ? Optional.of(
            new Problem(
                where(second),
                "it cannot be while '" + first.name() + "' is",
                "one of the two",
                "Leave one of them out"))
        : Optional.empty();
  }

  private static String where(Fault fault) {
    return "fault '" + fault.name() + "'";
  }

  private static Fault core(Fault fault) {
    return fault instanceof Intermittent some ? some.fault() : fault;
  }

  /** The same, once or now and then; a bridge or an exchange has no first and second. */
  private static boolean same(Fault first, Fault second) {
    Fault one = core(first);
    Fault other = core(second);
    return one.equals(other)
        || pair(one)
            && one.getClass() == other.getClass()
            && Set.copyOf(one.sites()).equals(Set.copyOf(other.sites()));
  }

  private static boolean pair(Fault fault) {
    return fault instanceof Bridged
        || fault instanceof TerminalsExchanged
        || fault instanceof LinesExchanged;
  }

  private static boolean opposed(Fault one, Fault other) {
    if (one instanceof ContactWelded first && other instanceof ContactWelded second) {
      return first.relay().equals(second.relay()) && first.pole() == second.pole();
    }
    if (!one.sites().equals(other.sites())) {
      return false;
    }
    Set<FaultKind> kinds = EnumSet.of(one.kind(), other.kind());
    return one.kind() == other.kind()
            && (one instanceof LineStuck || one instanceof NetStuck || one instanceof RelaySlow)
        || kinds.equals(Set.of(FaultKind.DIODE_OPEN, FaultKind.DIODE_SHORT))
        || kinds.equals(Set.of(FaultKind.NEVER_MAKES, FaultKind.WELDED));
  }
}
