package cardproof.sim.circuit;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Every single fault of a card as an edit of its wiring, for the experiments. */
final class SingleFaults {
  private static final Position HERE = new Position("card.yaml", 1, 1);

  private final Wiring sound;
  private final Map<String, Wiring> all = new LinkedHashMap<>();

  private SingleFaults(Wiring sound) {
    this.sound = sound;
  }

  /** By what is wrong. */
  static Map<String, Wiring> of(Wiring sound) {
    SingleFaults faults = new SingleFaults(sound);
    sound.parts().forEach(faults::joints);
    sound.relays().forEach(faults::contacts);
    sound.parts().stream()
        .filter(Diode.class::isInstance)
        .forEach(part -> faults.diode((Diode) part));
    faults.lines();
    return faults.all;
  }

  private void joints(Part part) {
    for (int t = 0; t < part.terminals().size(); t++) {
      if (part.terminals().get(t).wired()) {
        int open = t;
        Part other =
            part.wired(i -> i == open ? Terminal.NOT_WIRED : part.terminals().get(i).net());
        put(part.name() + " " + part.terminals().get(t).name() + " open", replaced(part, other));
      }
    }
  }

  private void contacts(Relay relay) {
    for (int p = 0; p < relay.poles().size(); p++) {
      Pole pole = relay.poles().get(p);
      String name = relay.name() + " pole " + (p + 1);
      if (pole.com() >= 0 && pole.no() >= 0) {
        put(name + " no welded", bridged(pole.com(), pole.no()));
      }
      if (pole.com() >= 0 && pole.nc() >= 0) {
        put(name + " nc welded", bridged(pole.com(), pole.nc()));
      }
      int no = Relay.COIL_TERMINALS + Relay.POLE_TERMINALS * p + 1;
      Relay turned =
          relay.wired(i -> relay.terminals().get(i == no ? no + 1 : i == no + 1 ? no : i).net());
      put(name + " exchanged", replaced(relay, turned));
    }
  }

  private void diode(Diode diode) {
    put(diode.name() + " short", bridged(diode.anode(), diode.cathode()));
    Diode turned = diode.wired(i -> i == 0 ? diode.cathode() : diode.anode());
    put(diode.name() + " backwards", replaced(diode, turned));
  }

  private void lines() {
    List<Integer> nets = sound.lineNets();
    for (int line = 0; line < nets.size(); line++) {
      put("line " + line + " at ground", bridged(nets.get(line), sound.ground()));
      put("line " + line + " at supply", bridged(nets.get(line), sound.supply()));
      if (line > 0) {
        put("lines " + (line - 1) + " and " + line, bridged(nets.get(line - 1), nets.get(line)));
      }
    }
  }

  private void put(String name, Wiring faulty) {
    all.put(name, faulty);
  }

  private Wiring bridged(int first, int second) {
    List<Part> parts = new ArrayList<>(sound.parts());
    parts.add(new Wire("bridge", first, second, Optional.empty(), HERE));
    return sound.withParts(parts);
  }

  private Wiring replaced(Part part, Part other) {
    return sound.withParts(sound.parts().stream().map(p -> p == part ? other : p).toList());
  }
}
