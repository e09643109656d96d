package cardproof.sim.circuit;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * The parts of a wiring, sorted by what they are to a simulation: what joins two nets now and then
 * (a switch), always (a wire), one way (a diode), or through a resistance (a load). All numbers are
 * of nets; a part of which an end is not soldered is left out.
 */
final class Elements {
  /** Between two nets; {@code what} is its number among its kind. */
  record Between(int first, int second, int what) {}

  /**
   * @param relay number among the relays whose coil it is, or {@link #NO_COIL}
   */
  record Load(int first, int second, double ohms, int relay) {}

  record Contact(int relay, int pole, int noSwitch, int ncSwitch) {}

  static final int NO_COIL = -1;
  static final int NO_SWITCH = -1;

  final Wiring wiring;
  final List<Relay> relays;
  final List<Between> switches = new ArrayList<>();
  final List<Contact> contacts = new ArrayList<>();
  final List<Between> wires = new ArrayList<>();
  final List<Fuse> fuses = new ArrayList<>();
  final List<Between> diodes = new ArrayList<>();
  final List<Load> loads = new ArrayList<>();

  /** By load: the part that it is; empty where it is an input of the fixture. */
  final List<Optional<Part>> partOfLoad = new ArrayList<>();

  /** Switch by which the fixture drives line 0; those of the other lines follow. */
  final int firstDrive;

  final int firstSpell;

  Elements(FaultyWiring card, BitSet watched, int watchOhms) {
    wiring = card.wiring();
    relays = wiring.relays();
    for (int r = 0; r < relays.size(); r++) {
      addRelay(relays.get(r), r);
    }
    wiring.parts().forEach(this::addOther);
    firstDrive = switches.size();
    List<Integer> lines = wiring.lineNets();
    for (int line = 0; line < lines.size(); line++) {
      switches.add(new Between(wiring.supply(), lines.get(line), line));
    }
    firstSpell = switches.size();
    for (SpellSwitch one : card.switches()) {
      switches.add(new Between(one.firstNet(), one.secondNet(), 0));
    }
    for (int line = watched.nextSetBit(0); line >= 0; line = watched.nextSetBit(line + 1)) {
      loads.add(new Load(lines.get(line), wiring.ground(), watchOhms, NO_COIL));
      partOfLoad.add(Optional.empty());
    }
  }

  private void addRelay(Relay relay, int number) {
    for (int p = 0; p < relay.poles().size(); p++) {
      Pole pole = relay.poles().get(p);
      int no = addContact(pole.com(), pole.no());
      int nc = addContact(pole.com(), pole.nc());
      if (no != NO_SWITCH || nc != NO_SWITCH) {
        contacts.add(new Contact(number, p, no, nc));
      }
    }
    addLoad(relay.coil1(), relay.coil2(), relay.type().coilOhms(), number, relay);
  }

  private int addContact(int com, int other) {
    if (com < 0 || other < 0) {
      return NO_SWITCH;
    }
    switches.add(new Between(com, other, contacts.size()));
    return switches.size() - 1;
  }

  private void addOther(Part part) {
    if (part instanceof Diode d) {
      add(diodes, d.anode(), d.cathode());
    } else if (part instanceof Resistor r) {
      addLoad(r.first(), r.second(), r.ohms(), NO_COIL, r);
    } else if (part instanceof Lamp lamp) {
      addLoad(lamp.first(), lamp.second(), lamp.ohms(), NO_COIL, lamp);
    } else if (part instanceof Wire wire) {
      add(wires, wire.first(), wire.second());
    } else if (part instanceof Fuse fuse && fuse.first() >= 0 && fuse.second() >= 0) {
      fuses.add(fuse);
    }
  }

  private void addLoad(int first, int second, double ohms, int relay, Part part) {
    if (first >= 0 && second >= 0) {
      loads.add(new Load(first, second, ohms, relay));
      partOfLoad.add(Optional.of(part));
    }
  }

  private static void add(List<Between> to, int first, int second) {
    if (first >= 0 && second >= 0) {
      to.add(new Between(first, second, to.size()));
    }
  }
}
