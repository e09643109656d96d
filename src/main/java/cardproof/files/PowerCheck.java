package cardproof.files;

import cardproof.card.wiring.Wiring;
import cardproof.text.Nearest;
import java.util.List;

/** A card that no current can flow through was not meant. */
final class PowerCheck {
  private final Problems problems;

  PowerCheck(Problems problems) {
    this.problems = problems;
  }

  void check(Wiring wiring, PowerNet supply, PowerNet ground) {
    check(wiring, wiring.supply(), "supply", supply);
    check(wiring, wiring.ground(), "ground", ground);
  }

  private void check(Wiring wiring, int net, String what, PowerNet named) {
    boolean wired =
        wiring.parts().stream()
            .flatMap(part -> part.terminals().stream())
            .anyMatch(terminal -> terminal.net() == net);
    if (wired) {
      return;
    }
    String name = named.net().text();
    List<String> others =
        wiring.nets().stream().map(one -> one.name()).filter(one -> !one.equals(name)).toList();
    problems.error(
        named.net().at(),
        "nothing is wired to the " + what + ", net '" + name + "'",
        "at least one part on it",
        Nearest.to(name, others).map(near -> "Did you mean '" + near + "'?").orElse(""));
  }
}
