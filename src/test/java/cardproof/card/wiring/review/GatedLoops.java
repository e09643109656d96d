package cardproof.card.wiring.review;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;

/**
 * Registers of two ranks wired at random: M takes what logic makes of R while its gate is operated,
 * R takes what logic makes of M while its own is released, each else holds itself. A few gates hang
 * on another line or stand the wrong way round.
 */
final class GatedLoops {
  private final Random random;
  private final Soldering board = new Soldering().input("LD").input("B").input("A");
  private final Map<String, String> coils = new LinkedHashMap<>();
  private final Map<String, List<String>> poles = new LinkedHashMap<>();
  private int lamps;
  private int nets;

  private GatedLoops(Random random) {
    this.random = random;
  }

  static Soldering random(Random random, int bits) {
    GatedLoops loops = new GatedLoops(random);
    loops.wire(bits);
    return loops.board;
  }

  private void wire(int bits) {
    String load = "LD";
    for (int pilot = random.nextInt(3); pilot > 0; pilot--) {
      relay("P" + pilot, load);
      load = "load" + pilot;
      poles.get("P" + pilot).add("+12V " + load + " -");
    }
    List<String> first = new ArrayList<>();
    List<String> second = new ArrayList<>();
    for (int i = 0; i < bits; i++) {
      first.add(rank("M" + i, load, true));
      second.add(rank("R" + i, load, false));
    }
    List<String> logic = new ArrayList<>(second);
    for (int k = random.nextInt(2 * bits + 1); k > 0; k--) {
      String coil = random.nextInt(6) == 0 ? "A" : "k" + k;
      relay("K" + k, coil);
      if (!coil.equals("A")) {
        feed(coil, logic, "K" + k);
      }
      logic.add("K" + k);
    }
    first.forEach(relay -> feed("data" + relay, logic, relay));
    second.forEach(relay -> feed("data" + relay, first, relay));
    coils.forEach(
        (relay, coil) -> {
          if (random.nextInt(3) == 0 && poles.get(relay).size() < 4) {
            poles.get(relay).add("+12V " + lamp() + " -");
          }
          board.relay(relay, coil, "GND", poles.get(relay).toArray(String[]::new));
        });
    board.output("Z").wire("WZ", "Z", "A");
  }

  private void relay(String name, String coil) {
    coils.put(name, coil);
    poles.put(name, new ArrayList<>());
  }

  /** A relay that holds itself but for what its gate lets at its coil. */
  private String rank(String name, String load, boolean whileOperated) {
    relay("G" + name, random.nextInt(8) == 0 ? "B" : load);
    relay(name, "in" + name);
    boolean wayRound = whileOperated ^ random.nextInt(12) == 0;
    String data = "data" + name;
    String held = "held" + name;
    poles
        .get("G" + name)
        .add("in" + name + " " + (wayRound ? data + " " + held : held + " " + data));
    poles.get(name).add("+12V " + held + " -");
    return name;
  }

  /** A net on one or two relays: one of them alone, either, both, or just one of two. */
  private void feed(String net, List<String> among, String not) {
    String one = source(among, not);
    String other = source(among, not);
    if (one.equals(other) || random.nextInt(3) == 0) {
      pole(one, random.nextBoolean() ? "+12V " + net + " -" : "+12V - " + net);
    } else if (random.nextInt(3) == 0) {
      pole(one, "+12V " + net + " -");
      pole(other, "+12V " + net + " -");
    } else {
      String up = "u" + nets;
      String down = "d" + nets++;
      boolean both = random.nextBoolean();
      pole(one, "+12V " + up + " " + (both ? "-" : down));
      pole(other, net + " " + (both ? up + " -" : down + " " + up));
    }
    if (random.nextInt(3) == 0) {
      board.wire("WD" + net, lamp(), net);
    }
  }

  private String source(List<String> among, String not) {
    List<String> free =
        among.stream().filter(r -> !r.equals(not) && poles.get(r).size() < 4).toList();
    return free.isEmpty() ? "" : free.get(random.nextInt(free.size()));
  }

  private void pole(String relay, String pole) {
    if (!relay.isEmpty() && poles.get(relay).size() < 4) {
      poles.get(relay).add(pole);
    }
  }

  private String lamp() {
    String name = "Q" + lamps++;
    board.output(name);
    return name;
  }
}
