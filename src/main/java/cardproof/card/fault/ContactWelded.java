package cardproof.card.fault;

import java.util.List;

/**
 * A contact that never opens, so that the other one of its pole never closes. The other poles move
 * freely: the relay is not one with linked contacts (EN 50205).
 *
 * @param pole counted from 1
 */
public record ContactWelded(String relay, int pole, Throw contact) implements Fault {
  @Override
  public String name() {
    return at().name() + Verb.WELDED.words;
  }

  private TerminalSite at() {
    return new TerminalSite(relay, contact.terminal(pole));
  }

  @Override
  public FaultKind kind() {
    return FaultKind.WELDED;
  }

  @Override
  public List<Site> sites() {
    return List.of(at());
  }
}
