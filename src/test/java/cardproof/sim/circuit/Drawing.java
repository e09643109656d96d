package cardproof.sim.circuit;

import cardproof.card.wiring.Part;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** A faulty wiring in words, to be held against what a person would draw. */
final class Drawing {
  private Drawing() {}

  /** {@code D4: v Q[0]}: nets in the order of the terminals, {@code -} for none. */
  static String part(Wiring wiring, Part part) {
    return part.name()
        + ": "
        + part.terminals().stream().map(t -> net(wiring, t.net())).collect(Collectors.joining(" "));
  }

  static String net(Wiring wiring, int net) {
    return net == Terminal.NOT_WIRED ? "-" : "'" + wiring.nets().get(net).name() + "'";
  }

  /**
   * What differs from the sound wiring: parts that changed, parts added, lines that moved, switches
   * ({@code a=b} is joined while the fault is there, {@code a/b} while it is away).
   */
  static List<String> changes(Wiring sound, FaultyWiring faulty) {
    Wiring after = faulty.wiring();
    List<String> all = new ArrayList<>();
    for (int p = 0; p < after.parts().size(); p++) {
      String drawn = part(after, after.parts().get(p));
      if (p >= sound.parts().size()) {
        all.add("+ " + drawn);
      } else if (!drawn.equals(part(sound, sound.parts().get(p)))) {
        all.add(drawn);
      }
    }
    for (int line = 0; line < after.lineNets().size(); line++) {
      if (!after.lineNets().get(line).equals(sound.lineNets().get(line))) {
        all.add("line " + line + ": " + net(after, after.lineNets().get(line)));
      }
    }
    for (SpellSwitch one : faulty.switches()) {
      String how = one.closedWhilePresent() ? "=" : "/";
      all.add(net(after, one.firstNet()) + how + net(after, one.secondNet()));
    }
    faulty.slowerByUs().forEach((relay, us) -> all.add(relay + " slower " + us));
    return all.stream().map(text -> text.replace("'", "")).toList();
  }
}
