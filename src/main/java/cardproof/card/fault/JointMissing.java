package cardproof.card.fault;

import java.util.List;

/**
 * Nothing joins a solder point, or the pin of a line, to what it belongs to.
 *
 * @param at a terminal or a line
 */
public record JointMissing(Site at) implements Fault {
  public JointMissing {
    if (!(at instanceof TerminalSite || at instanceof LineSite)) {
      throw new IllegalArgumentException("no joint at " + at.name());
    }
  }

  @Override
  public String name() {
    return at.name() + Verb.JOINT_MISSING.words;
  }

  @Override
  public FaultKind kind() {
    return FaultKind.JOINT_MISSING;
  }

  @Override
  public List<Site> sites() {
    return List.of(at);
  }
}
