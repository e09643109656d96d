package cardproof.card.fault;

import java.util.List;

/**
 * A contact that never closes: bent, dirty or burnt away. The other one of its pole works.
 *
 * @param pole counted from 1
 */
public record ContactNeverMakes(String relay, int pole, Throw contact) implements Fault {
  @Override
  public String name() {
    return at().name() + Verb.NEVER_MAKES.words;
  }

  private TerminalSite at() {
    return new TerminalSite(relay, contact.terminal(pole));
  }

  @Override
  public FaultKind kind() {
    return FaultKind.NEVER_MAKES;
  }

  @Override
  public List<Site> sites() {
    return List.of(at());
  }
}
