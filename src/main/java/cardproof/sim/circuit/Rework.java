package cardproof.sim.circuit;

import cardproof.card.wiring.Net;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * A wiring under the soldering iron. Everything that has a wire is an <em>end</em>: the terminals
 * of all parts and the fixture's side of all lines. An end is moved from one net to another or to
 * none, and nets are joined; for good, or while a spell is. Parts and nets that were there stay
 * what and where they were. Not thread safe.
 */
final class Rework {
  private final Wiring before;
  private final ArrayList<Net> nets;
  private final ArrayList<Part> added = new ArrayList<>();
  private final ArrayList<SpellSwitch> switches = new ArrayList<>();
  private final Map<String, Integer> firstEnd = new HashMap<>();
  private final Map<String, Part> parts = new HashMap<>();
  private final Set<String> partNames = new HashSet<>();
  private final Set<String> netNames = new HashSet<>();
  private final int[] net;
  private final int lines;

  Rework(Wiring before) {
    this.before = before;
    this.nets = new ArrayList<>(before.nets());
    List<Integer> all = new ArrayList<>();
    for (Part part : before.parts()) {
      firstEnd.put(part.name(), all.size());
      parts.put(part.name(), part);
      part.terminals().forEach(terminal -> all.add(terminal.net()));
    }
    lines = all.size();
    all.addAll(before.lineNets());
    net = all.stream().mapToInt(Integer::intValue).toArray();
    partNames.addAll(parts.keySet());
    nets.forEach(one -> netNames.add(one.name()));
  }

  Part part(String name) {
    Part part = parts.get(name);
    if (part == null) {
      throw new IllegalArgumentException("this wiring has no part " + name);
    }
    return part;
  }

  int end(String part, int terminal) {
    part(part);
    return firstEnd.get(part) + terminal;
  }

  int end(String part, String terminal) {
    List<Terminal> all = part(part).terminals();
    for (int t = 0; t < all.size(); t++) {
      if (all.get(t).name().equals(terminal)) {
        return firstEnd.get(part) + t;
      }
    }
    throw new IllegalArgumentException(part + " has no terminal " + terminal);
  }

  int lineEnd(int line) {
    return lines + line;
  }

  /** The net that an end is on now. */
  int netOf(int end) {
    return net[end];
  }

  /** The ends of this part that are on a net now. */
  int[] endsOn(int onNet, Part part) {
    int first = firstEnd.get(part.name());
    return IntStream.range(first, first + part.terminals().size())
        .filter(end -> net[end] == onNet)
        .toArray();
  }

  /** A new net, with nothing on it. */
  int fresh(String name) {
    nets.add(new Net(unused(name, netNames), before.at()));
    return nets.size() - 1;
  }

  private static String unused(String name, Set<String> names) {
    String free = name;
    for (int n = 2; !names.add(free); n++) {
      free = name + " (" + n + ")";
    }
    return free;
  }

  /**
   * Takes an end off its net and puts it to another one.
   *
   * @param to {@link Terminal#NOT_WIRED} to leave it loose
   * @param when it is there
   */
  void move(int end, int to, When when) {
    int from = net[end];
    if (from == to) {
      return;
    }
    if (when.always()) {
      // a line always has a net, be it one with nothing else on it
      net[end] = to == Terminal.NOT_WIRED && end >= lines ? fresh(when.fault()) : to;
      return;
    }
    int own = fresh(when.fault());
    net[end] = own;
    if (from != Terminal.NOT_WIRED) {
      switches.add(new SpellSwitch(own, from, false, when.spell().orElseThrow()));
    }
    if (to != Terminal.NOT_WIRED) {
      switches.add(new SpellSwitch(own, to, true, when.spell().orElseThrow()));
    }
  }

  void cut(int end, When when) {
    move(end, Terminal.NOT_WIRED, when);
  }

  void exchange(int first, int second, When when) {
    int firstNet = net[first];
    int secondNet = net[second];
    move(first, secondNet, when);
    move(second, firstNet, when);
  }

  /** Joins two nets; nothing where one of them is none or both are one. */
  void join(int first, int second, When when) {
    if (first == second || first == Terminal.NOT_WIRED || second == Terminal.NOT_WIRED) {
      return;
    }
    if (when.always()) {
      String name = unused(when.fault(), partNames);
      added.add(new Wire(name, first, second, Optional.empty(), before.at()));
    } else {
      switches.add(new SpellSwitch(first, second, true, when.spell().orElseThrow()));
    }
  }

  /** The metal of an end, to which solder can run whether it is wired or not. */
  int metal(int end, String name) {
    if (net[end] == Terminal.NOT_WIRED) {
      net[end] = fresh(name);
    }
    return net[end];
  }

  Wiring wiring() {
    List<Part> after = new ArrayList<>(before.parts().size() + added.size());
    for (Part part : before.parts()) {
      int first = firstEnd.get(part.name());
      List<Terminal> was = part.terminals();
      boolean touched = false;
      for (int t = 0; t < was.size(); t++) {
        touched |= was.get(t).net() != net[first + t];
      }
      after.add(touched ? part.wired(t -> net[first + t]) : part);
    }
    after.addAll(added);
    List<Integer> lineNets = Arrays.stream(net, lines, net.length).boxed().toList();
    return new Wiring(nets, before.supply(), before.ground(), lineNets, after, before.at());
  }

  List<SpellSwitch> switches() {
    return switches;
  }
}
