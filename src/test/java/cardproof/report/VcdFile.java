package cardproof.report;

import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;

/**
 * What a Value Change Dump says, by full name: scopes and name with dots between.
 *
 * @param tickNs the timescale
 * @param endNs the last time that it names
 */
public record VcdFile(long tickNs, List<String> comments, Map<String, Signal> signals, long endNs) {
  /**
   * A variable and its values by time, as many digits as it is wide; reals as they are written.
   *
   * @param select with its brackets; empty for a whole variable
   */
  public record Signal(String type, int size, String select, NavigableMap<Long, String> values) {
    Signal(String type, int size, String select) {
      this(type, size, select, new TreeMap<>());
    }

    public String at(long ns) {
      return values.floorEntry(ns).getValue();
    }
  }

  public Signal signal(String name) {
    if (!signals.containsKey(name)) {
      throw new AssertionError("no signal " + name + " among " + signals.keySet());
    }
    return signals.get(name);
  }
}
