package cardproof.card.wiring.review;

import cardproof.card.wiring.Net;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.util.List;

/** What is wired at one end only. */
final class LooseEnds {
  private final Wiring wiring;
  private final List<EdgeLine> lines;
  private final Findings findings;
  private final int[] ends;
  private final String[] lastEnd;

  LooseEnds(Wiring wiring, List<EdgeLine> lines, Findings findings) {
    this.wiring = wiring;
    this.lines = lines;
    this.findings = findings;
    this.ends = new int[wiring.nets().size()];
    this.lastEnd = new String[wiring.nets().size()];
    for (Part part : wiring.parts()) {
      for (Terminal terminal : part.terminals()) {
        if (terminal.wired()) {
          ends[terminal.net()]++;
          lastEnd[terminal.net()] = part.name() + " " + terminal.name();
        }
      }
    }
  }

  void check() {
    wiring.relays().forEach(this::contacts);
    nets();
    for (int line = 0; line < lines.size(); line++) {
      if (ends[wiring.lineNets().get(line)] == 0) {
        findings.add(
            Kind.LINE_NOT_WIRED,
            lines.get(line).at(),
            "nothing is wired to line " + lines.get(line).words(),
            "",
            "Wire it, or leave the line out of the card");
      }
    }
  }

  private void contacts(Relay relay) {
    for (int p = 0; p < relay.poles().size(); p++) {
      Pole pole = relay.poles().get(p);
      boolean com = pole.com() != Terminal.NOT_WIRED;
      boolean no = pole.no() != Terminal.NOT_WIRED;
      boolean nc = pole.nc() != Terminal.NOT_WIRED;
      if (com && !no && !nc) {
        floating(relay, p, "com", pole.com(), "neither its no nor its nc is");
      } else if (!com && (no || nc)) {
        floating(relay, p, no ? "no" : "nc", no ? pole.no() : pole.nc(), "its com is not");
      }
    }
  }

  private void floating(Relay relay, int pole, String side, int net, String other) {
    findings.add(
        Kind.FLOATING_CONTACT,
        relay.at(),
        Words.terminal(relay, side, pole)
            + " is wired to "
            + wiring.nets().get(net)
            + ", but "
            + other,
        "both sides of a contact",
        "Wire the other side, or leave the pole free");
  }

  private void nets() {
    for (int n = 0; n < ends.length; n++) {
      if (ends[n] == 1 && n != wiring.supply() && n != wiring.ground() && !isLine(n)) {
        Net net = wiring.nets().get(n);
        findings.add(
            Kind.ONE_ENDED_NET,
            net.at(),
            "net " + net + " has one end only, " + lastEnd[n],
            "two ends or more",
            "Is its name written the same way at its other end?");
      }
    }
  }

  private boolean isLine(int net) {
    return wiring.lineNets().contains(net);
  }
}
