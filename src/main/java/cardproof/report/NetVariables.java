package cardproof.report;

import cardproof.card.wiring.Net;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Declares nets as variables: {@code BIT[3].odd} is {@code odd} in a scope {@code BIT[3]}, and nets
 * whose names differ in a last index that leaves no number out, such as {@code C[0]} to {@code
 * C[12]}, are one vector.
 */
final class NetVariables {
  private static final Pattern INDEXED = Pattern.compile("(.+)\\[(\\d{1,9})]");

  /** A block, or the card itself: what is in it, in the order of the names' first use. */
  private static final class Scope {
    private final Map<String, Scope> within = new TreeMap<>();
    private final Map<String, Integer> singles = new TreeMap<>();
    private final Map<String, TreeMap<Integer, Integer>> indexed = new TreeMap<>();

    void add(String name, int net) {
      int dot = name.indexOf('.');
      Matcher numbered = INDEXED.matcher(name);
      if (dot > 0) {
        within
            .computeIfAbsent(name.substring(0, dot), fresh -> new Scope())
            .add(name.substring(dot + 1), net);
      } else if (numbered.matches()) {
        indexed
            .computeIfAbsent(numbered.group(1), fresh -> new TreeMap<>())
            .put(Integer.parseInt(numbered.group(2)), net);
      } else {
        singles.put(name, net);
      }
    }
  }

  private final VcdWriter writer;
  private final Map<Integer, WaveBit> bits = new HashMap<>();

  private NetVariables(VcdWriter writer) {
    this.writer = writer;
  }

  /**
   * @param chosen numbers of nets
   * @return where each of them is, by its number
   */
  static Map<Integer, WaveBit> declare(VcdWriter writer, List<Net> nets, List<Integer> chosen) {
    Scope all = new Scope();
    chosen.forEach(net -> all.add(nets.get(net).name(), net));
    NetVariables made = new NetVariables(writer);
    made.declare(all);
    return made.bits;
  }

  private void declare(Scope scope) {
    scope.singles.forEach(
        (name, net) ->
            bits.put(net, new WaveBit(new BitGroup(writer.declare(VcdKind.WIRE, name, 1)), 0)));
    scope.indexed.forEach(this::declareIndexed);
    scope.within.forEach(
        (name, inner) -> {
          writer.openScope(name);
          declare(inner);
          writer.closeScope();
        });
  }

  private void declareIndexed(String name, TreeMap<Integer, Integer> netOfIndex) {
    int low = netOfIndex.firstKey();
    int high = netOfIndex.lastKey();
    if (netOfIndex.size() > 1 && high - low + 1 == netOfIndex.size()) {
      BitGroup group = new BitGroup(writer.declareRange(VcdKind.WIRE, name, high, low));
      netOfIndex.forEach((index, net) -> bits.put(net, new WaveBit(group, index - low)));
      return;
    }
    List<Integer> apart = new ArrayList<>(netOfIndex.keySet());
    for (int index : apart) {
      BitGroup group = new BitGroup(writer.declareBit(VcdKind.WIRE, name, index));
      bits.put(netOfIndex.get(index), new WaveBit(group, 0));
    }
  }
}
