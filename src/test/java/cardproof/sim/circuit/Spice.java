package cardproof.sim.circuit;

import cardproof.OutsideTools;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** ngspice, a general circuit simulator that knows nothing of this project, in batch mode. */
final class Spice {
  private static final Pattern LEVEL = Pattern.compile("v\\(n(\\d+)\\) = (\\S+?)(?:Note.*)?");

  /** Closed contacts, wires and fuses; what little it drops is far below a millivolt. */
  private static final double CLOSED_OHMS = 1e-5;

  private static final double LEAK_OHMS = 1e9;

  /** How a diode is put to it. */
  enum DiodeAs {
    /** The same two straight lines that the engine uses. */
    LINES,
    /** Its own junction, with the figures of a common 1 A silicon rectifier. */
    JUNCTION
  }

  private final Path directory;

  Spice(Path directory) {
    this.directory = directory;
  }

  static void assumeInstalled() {
    OutsideTools.assumeInstalled("circuit simulator", "ngspice", "ngspice");
  }

  /**
   * Volts by net, all relays released and no line driven.
   *
   * @param more pairs of nets that are joined
   */
  double[] volts(Wiring wiring, double supply, DiodeAs diodes, List<int[]> more)
      throws IOException, InterruptedException {
    StringBuilder text = new StringBuilder("* one card at rest\n");
    line(text, "Vs n%d 0 %s", wiring.supply(), supply);
    line(text, "Vg n%d 0 0", wiring.ground());
    int count = 0;
    for (Part part : wiring.parts()) {
      put(text, part, diodes, count++);
    }
    for (int[] pair : more) {
      line(text, "Rc%d n%d n%d %s", count++, pair[0], pair[1], CLOSED_OHMS);
    }
    StringBuilder print = new StringBuilder("print");
    for (int net = 0; net < wiring.nets().size(); net++) {
      line(text, "Rl%d n%d 0 %s", net, net, LEAK_OHMS);
      print.append(" v(n").append(net).append(')');
    }
    line(text, ".model DS D(IS=2.5n N=1.75 RS=0.05)");
    line(text, ".control\nset numdgt=9\nop\n%s\nquit 0\n.endc\n.end", print);
    return read(text.toString(), wiring.nets().size());
  }

  private static void put(StringBuilder text, Part part, DiodeAs diodes, int n) {
    if (part instanceof Resistor r) {
      line(text, "R%d n%d n%d %s", n, r.first(), r.second(), r.ohms());
    } else if (part instanceof Lamp lamp) {
      line(text, "R%d n%d n%d %s", n, lamp.first(), lamp.second(), lamp.ohms());
    } else if (part instanceof Relay relay) {
      line(text, "R%d n%d n%d %s", n, relay.coil1(), relay.coil2(), relay.type().coilOhms());
    } else if (part instanceof Wire wire) {
      line(text, "R%d n%d n%d %s", n, wire.first(), wire.second(), CLOSED_OHMS);
    } else if (part instanceof Fuse fuse) {
      line(text, "R%d n%d n%d %s", n, fuse.first(), fuse.second(), CLOSED_OHMS);
    } else if (part instanceof Diode d && diodes == DiodeAs.JUNCTION) {
      line(text, "D%d n%d n%d DS", n, d.anode(), d.cathode());
    } else if (part instanceof Diode d) {
      String across = String.format("V(n%d,n%d)", d.anode(), d.cathode());
      line(
          text,
          "B%d n%d n%d I=(%s>%s) ? (%s-%s)/%s : 0",
          n,
          d.anode(),
          d.cathode(),
          across,
          Diode.FORWARD_VOLTS,
          across,
          Diode.FORWARD_VOLTS,
          Diode.FORWARD_OHMS);
    }
  }

  private static void line(StringBuilder text, String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append('\n');
  }

  private double[] read(String netlist, int nets) throws IOException, InterruptedException {
    Path file = Files.writeString(directory.resolve("card.cir"), netlist);
    double[] volts = new double[nets];
    int found = 0;
    for (String line :
        OutsideTools.call(directory.resolve("levels.txt"), "ngspice", "-b", file.toString())) {
      Matcher level = LEVEL.matcher(line.strip());
      if (level.matches()) {
        volts[Integer.parseInt(level.group(1))] = Double.parseDouble(level.group(2));
        found++;
      }
    }
    if (found != nets) {
      throw new IllegalStateException(found + " levels of " + nets + " from ngspice:\n" + netlist);
    }
    return volts;
  }
}
