package cardproof.card.fault;

import java.util.List;

/**
 * What belongs on one solder point is on the other, and the other way round. Where only one of them
 * is wired, its wire went to the wrong one.
 */
public record TerminalsExchanged(TerminalSite first, TerminalSite second) implements Fault {
  @Override
  public String name() {
    return first.name() + Verb.EXCHANGED_WITH.words + second.name();
  }

  @Override
  public FaultKind kind() {
    return FaultKind.EXCHANGED;
  }

  @Override
  public List<Site> sites() {
    return List.of(first, second);
  }
}
