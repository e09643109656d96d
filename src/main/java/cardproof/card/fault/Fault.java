package cardproof.card.fault;

import java.util.List;

/** One thing that can be wrong with a card; {@link FaultNames} reads and writes it. Immutable. */
public sealed interface Fault
    permits LineStuck,
        LinesExchanged,
        NetStuck,
        JointMissing,
        TerminalsExchanged,
        Bridged,
        CoilOpen,
        ContactNeverMakes,
        ContactWelded,
        PartOpen,
        DiodeShort,
        DiodeBackwards,
        RelaySlow,
        Intermittent {
  /** The name that {@link FaultNames#parse} reads back. */
  String name();

  FaultKind kind();

  /** Where it sits: one place, or the two that a bridge or an exchange is about. */
  List<Site> sites();
}
