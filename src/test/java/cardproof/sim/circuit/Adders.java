package cardproof.sim.circuit;

import static cardproof.sim.circuit.Solder.GROUND;
import static cardproof.sim.circuit.Solder.PLUS;
import static cardproof.sim.circuit.Solder.contact;

import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Wiring;

/** Arithmetic from relay contacts, for the tests. */
public final class Adders {
  private Adders() {}

  /**
   * S and CO from A, B and CI: three relays a bit, the carry relay of a bit fed by the contacts of
   * the bit below. Lines in the order A, B, CI, S, CO. Each kind of coil returns by a wire of its
   * own: WA, WB, WC. Behind fuse F1 on net IN.
   *
   * @param lamps one on each line, with a common return WL
   */
  public static Wiring ripple(int width, RelayType type, boolean flyback, boolean lamps) {
    Solder solder = new Solder().fuse("F1", "IN", PLUS, 3000);
    lines(solder, "A", width);
    lines(solder, "B", width);
    solder.line("CI");
    lines(solder, "S", width);
    solder.line("CO");
    for (int i = 0; i < width; i++) {
      bit(solder, i, i == 0 ? "CI" : "carry" + i, i == width - 1 ? "CO" : "carry" + (i + 1), type);
      for (String kind : flyback ? new String[] {"A", "B", "C"} : new String[0]) {
        String hot = kind.equals("C") ? (i == 0 ? "CI" : "carry" + i) : kind + "[" + i + "]";
        solder.diode(kind + i + ".flyback", "ground" + kind, hot);
      }
    }
    for (String kind : new String[] {"A", "B", "C"}) {
      solder.wire("W" + kind, "ground" + kind, GROUND);
    }
    if (lamps) {
      for (String bus : new String[] {"A", "B", "S"}) {
        for (int i = 0; i < width; i++) {
          solder.lamp("L" + bus + i, bus + "[" + i + "]", "groundL", 40);
        }
      }
      solder.lamp("LCI", "CI", "groundL", 40).lamp("LCO", "CO", "groundL", 40);
      solder.wire("WL", "groundL", GROUND);
    }
    return solder.wiring("IN");
  }

  private static void bit(Solder solder, int i, String carry, String next, RelayType type) {
    String a1 = "a1." + i;
    String a0 = "a0." + i;
    String odd = "odd." + i;
    String even = "even." + i;
    String both = "both." + i;
    solder.relay(
        "A" + i, type, "A[" + i + "]", "groundA", contact(PLUS, a1, a0), contact(PLUS, both, null));
    solder.relay(
        "B" + i,
        type,
        "B[" + i + "]",
        "groundB",
        contact(odd, a0, a1),
        contact(even, a1, a0),
        contact(both, next, null));
    solder.relay(
        "C" + i,
        type,
        carry,
        "groundC",
        contact("S[" + i + "]", even, odd),
        contact(odd, next, null));
  }

  /**
   * Y = I + 1: two relays a bit, the carry relay of a bit fed by the bit below; the carry into bit
   * 0 is tied to the supply. Lines in the order I, Y.
   */
  public static Wiring plusOne(int width, RelayType type) {
    Solder solder = new Solder();
    lines(solder, "I", width);
    lines(solder, "Y", width);
    for (int i = 0; i < width; i++) {
      plusOneBit(solder, i, "I[" + i + "]", type);
    }
    return solder.wiring();
  }

  /** The same chain with its outputs on its own inputs, no register between, while RUN is 1. */
  public static Wiring fedBack(int width, RelayType type) {
    Solder solder = new Solder().line("RUN");
    lines(solder, "Y", width);
    for (int i = 0; i < width; i++) {
      plusOneBit(solder, i, "in." + i, type);
    }
    for (int i = 0; i < width; i++) {
      solder.relay("RUN" + i, type, "RUN", GROUND, contact("in." + i, "Y[" + i + "]", null));
    }
    return solder.wiring();
  }

  private static void plusOneBit(Solder solder, int i, String in, RelayType type) {
    String carry = i == 0 ? PLUS : "carry" + i;
    String one = "one." + i;
    String none = "none." + i;
    String out = "Y[" + i + "]";
    solder.relay(
        "I" + i,
        type,
        in,
        GROUND,
        contact(PLUS, one, none),
        contact("gate." + i, "carry" + (i + 1), null));
    solder.relay(
        "C" + i, type, carry, GROUND, contact(out, none, one), contact(PLUS, "gate." + i, null));
    solder.diode("I" + i + ".flyback", GROUND, in);
    solder.diode("C" + i + ".flyback", GROUND, carry);
  }

  private static void lines(Solder solder, String bus, int width) {
    for (int i = 0; i < width; i++) {
      solder.line(bus + "[" + i + "]");
    }
  }
}
