package cardproof.card.fault;

/** One thing that can be wrong with a card; {@link FaultNames} reads and writes it. */
public sealed interface Fault permits LineStuck, LinesExchanged {
  /** The name that {@link FaultNames#parse} reads back. */
  String name();
}
