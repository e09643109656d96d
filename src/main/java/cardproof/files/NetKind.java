package cardproof.files;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.text.Position;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/**
 * What a reference of a netlist is.
 *
 * @param words for messages
 * @param terminals names of all it has, in the part's order; those that must be on a net first
 * @param needed how many of them must be on a net
 */
record NetKind(String words, List<String> terminals, int needed, Maker maker) {
  private static final List<String> TWO = List.of("1", "2");

  /** From a name and the nets by terminal to the part. */
  interface Maker {
    Part part(String name, int[] nets, Position at);
  }

  static NetKind relay(RelayType type) {
    List<String> terminals = TerminalNames.relayTerminals(type.poles());
    int[] none = new int[terminals.size()];
    java.util.Arrays.fill(none, Terminal.NOT_WIRED);
    List<Pole> open =
        Collections.nCopies(
            type.poles(), new Pole(Terminal.NOT_WIRED, Terminal.NOT_WIRED, Terminal.NOT_WIRED));
    return new NetKind(
        "a relay " + type.name(),
        terminals,
        Relay.COIL_TERMINALS,
        (name, nets, at) ->
            new Relay(name, type, nets[0], nets[1], open, name, Optional.empty(), at)
                .wired(t -> nets[t]));
  }

  static NetKind diode() {
    return new NetKind(
        "a diode",
        List.of("anode", "cathode"),
        2,
        (name, nets, at) -> new Diode(name, nets[0], nets[1], Optional.empty(), at));
  }

  static NetKind wire() {
    return new NetKind(
        "a wire",
        TWO,
        2,
        (name, nets, at) -> new Wire(name, nets[0], nets[1], Optional.empty(), at));
  }

  static NetKind resistor(double ohms) {
    return new NetKind(
        "a resistor",
        TWO,
        2,
        (name, nets, at) -> new Resistor(name, nets[0], nets[1], ohms, Optional.empty(), at));
  }

  static NetKind fuse(long milliamps) {
    return new NetKind(
        "a fuse",
        TWO,
        2,
        (name, nets, at) -> new Fuse(name, nets[0], nets[1], milliamps, Optional.empty(), at));
  }

  static NetKind lamp(RatingReader.LampRating rating) {
    return new NetKind(
        "a lamp",
        TWO,
        2,
        (name, nets, at) ->
            new Lamp(
                name,
                nets[0],
                nets[1],
                rating.millivolts(),
                rating.milliamps(),
                Optional.empty(),
                at));
  }

  /** The terminal that a pin of the netlist is; empty where there is none of that name. */
  Optional<String> terminal(String pin) {
    if (needed < terminals.size()) {
      return TerminalNames.ofRelay(
          pin, (terminals.size() - Relay.COIL_TERMINALS) / Relay.POLE_TERMINALS);
    }
    return terminals.equals(TWO)
        ? Optional.of(pin).filter(TWO::contains)
        : TerminalNames.ofDiode(pin);
  }
}
