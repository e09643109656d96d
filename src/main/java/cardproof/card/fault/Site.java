package cardproof.card.fault;

/** A place on a card that a fault can be at. */
public sealed interface Site permits LineSite, TerminalSite, PartSite, NetSite {
  /** As it stands in the name of a fault. */
  String name();
}
