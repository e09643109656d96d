package cardproof.card;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Figure;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Spot;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What is soldered on small cards, put together in code, for tests that are not about files. */
public final class TestWirings {
  private static final Position HERE = new Position("test", 1, 1);
  private static final long LAMP_MILLIAMPS = 40;
  private static final long FUSE_MILLIAMPS = 3_000;
  private static final long MILLIVOLTS = 12_000;

  private final Wiring.Builder wiring = new Wiring.Builder();
  private Map<String, Spot> terminals = Map.of();

  /**
   * Figures of the TE/Schrack PT with a 12 V coil: 192 ohm, 15 ms and 10 ms, 18 ms with a diode,
   * bounce 6 and 8 ms, all typical (data sheet).
   */
  public static RelayType type(int poles, Map<String, Spot> terminals) {
    return new RelayType(
        "PT-" + poles,
        "relay with " + poles + " poles",
        poles,
        MILLIVOLTS,
        192,
        RelayType.DEFAULT_OPERATE_PERCENT,
        RelayType.DEFAULT_RELEASE_PERCENT,
        Figure.typical(15_000),
        Figure.typical(10_000),
        Figure.typical(18_000),
        Figure.typical(6_000),
        Figure.typical(8_000),
        0,
        terminals,
        "TE Connectivity / Schrack, PT",
        HERE);
  }

  /** From now on relays have their terminals there. */
  public TestWirings terminals(Map<String, Spot> spots) {
    terminals = spots;
    return this;
  }

  /**
   * @param poles {@code "com no nc"} each, {@code -} where nothing is soldered
   */
  public TestWirings relay(String name, String coil1, String coil2, String... poles) {
    return relay(name, Optional.empty(), coil1, coil2, poles);
  }

  public TestWirings relay(
      String name, Optional<Spot> spot, String coil1, String coil2, String... poles) {
    List<Pole> all = new ArrayList<>();
    for (String pole : poles) {
      String[] nets = pole.split(" ");
      all.add(new Pole(net(nets[0]), net(nets[1]), net(nets[2])));
    }
    RelayType type = type(poles.length, terminals);
    return add(new Relay(name, type, net(coil1), net(coil2), all, name, spot, HERE));
  }

  public TestWirings diode(String name, String anode, String cathode) {
    return add(new Diode(name, net(anode), net(cathode), Optional.empty(), HERE));
  }

  /** Across a coil of which the second end is at ground. */
  public TestWirings flyback(String relay, String coil1) {
    return diode(relay + ".flyback", "GND", coil1);
  }

  public TestWirings lamp(String name, String first, String second) {
    return add(
        new Lamp(
            name, net(first), net(second), MILLIVOLTS, LAMP_MILLIAMPS, Optional.empty(), HERE));
  }

  public TestWirings fuse(String name, String first, String second) {
    return add(new Fuse(name, net(first), net(second), FUSE_MILLIAMPS, Optional.empty(), HERE));
  }

  public TestWirings resistor(String name, String first, String second, double ohms) {
    return add(new Resistor(name, net(first), net(second), ohms, Optional.empty(), HERE));
  }

  public TestWirings wire(String name, String first, String second) {
    return add(new Wire(name, net(first), net(second), Optional.empty(), HERE));
  }

  private TestWirings add(Part part) {
    wiring.add(part);
    return this;
  }

  private int net(String name) {
    return name.equals("-") ? Terminal.NOT_WIRED : wiring.net(name, HERE);
  }

  /** On a card of which the supply comes in at IN and goes back by GND. */
  public Card on(Card card) {
    List<String> lines = card.lines().stream().map(Line::name).toList();
    return card.withWiring(wiring.build("IN", "GND", lines, HERE));
  }

  /**
   * One of everything: an input that drives a relay with a diode across its coil, contacts that
   * light a lamp, a fuse, a resistor, a wire to a second output.
   *
   * <pre>
   *   IN -F1- +12V          X -K3 coil- GND, K3.flyback across it
   *   K3: +12V (com1) to Y (no1) or z (nc1);  +12V (com2) to v (no2), nc2 not soldered
   *   z -L1- GND    v -D4- Q[0]    Y -R1- GND    v -W1- Q[1]
   * </pre>
   */
  public static Card oneOfEach() {
    return new TestWirings()
        .fuse("F1", "IN", "+12V")
        .relay("K3", "X", "GND", "+12V Y z", "+12V v -")
        .flyback("K3", "X")
        .lamp("L1", "z", "GND")
        .diode("D4", "v", "Q[0]")
        .resistor("R1", "Y", "GND", 1_000)
        .wire("W1", "v", "Q[1]")
        .on(TestCards.card().input("X", 1).output("Y", 1, "X").output("Q", 2, "{X, X}").build());
  }

  /**
   * A ripple-carry adder of relay contacts with two rails for each carry, C[i] and N[i], of which
   * one is fed: per bit relays A and E on one input, B on the other, nine poles, a lamp at the sum;
   * one relay for the carry in. Twelve bits are 37 relays with 109 poles.
   */
  public static Card adder(int bits) {
    TestWirings all = new TestWirings().fuse("F1", "IN", "+12V");
    all.relay("K0", "CI", "GND", "+12V C[0] N[0]").flyback("K0", "CI");
    for (int i = 0; i < bits; i++) {
      all.bit("BIT[" + i + "].", i, bits);
    }
    all.wire("W1", "C[" + bits + "]", "CO").lamp("LC", "CO", "GND");
    return all.on(
        TestCards.card()
            .input("A", bits)
            .input("B", bits)
            .input("CI", 1)
            .output("S", bits, "A + B + CI")
            .output("CO", 1, "(A + B + CI) >> " + bits)
            .settleUs(1_000_000)
            .build());
  }

  private void bit(String block, int i, int bits) {
    String index = bits == 1 ? "" : "[" + i + "]";
    String c = "C[" + i + "]";
    String n = "N[" + i + "]";
    String next = "C[" + (i + 1) + "]";
    String nextN = "N[" + (i + 1) + "]";
    String one = block + "one";
    String other = block + "other";
    String carry1 = block + "carry1";
    String none0 = block + "none0";
    // A turns the rails over for the sum: one = A ? N : C, other = A ? C : N
    relay(
        block + "A",
        "A" + index,
        "GND",
        one + " " + n + " " + c,
        other + " " + c + " " + n,
        carry1 + " +12V " + c,
        none0 + " " + n + " +12V");
    flyback(block + "A", "A" + index);
    // E gives the carries where the inputs differ: A only, B not, passes C; A not, B only, passes N
    relay(block + "E", "A" + index, "GND", block + "carry0 " + c + " -", block + "none1 - " + n);
    flyback(block + "E", "A" + index);
    relay(
        block + "B",
        "B" + index,
        "GND",
        "S" + index + " " + other + " " + one,
        next + " " + carry1 + " " + block + "carry0",
        nextN + " " + block + "none1 " + none0);
    flyback(block + "B", "B" + index);
    lamp(block + "L", "S" + index, "GND");
  }
}
