package cardproof.report;

import java.math.BigDecimal;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A strict reader of four-state Value Change Dumps, written from the grammar of IEEE 1364-2005,
 * clause 18.2 (syntax 18-4 to 18-8, table 18-1) from memory, with no regard to how this project
 * writes them. Throws for whatever the grammar does not have.
 */
public final class VcdReader {
  private static final Set<String> TYPES =
      Set.of(
          "event",
          "integer",
          "parameter",
          "real",
          "realtime",
          "reg",
          "supply0",
          "supply1",
          "time",
          "tri",
          "triand",
          "trior",
          "trireg",
          "tri0",
          "tri1",
          "wand",
          "wire",
          "wor");
  private static final Set<String> SCOPES = Set.of("begin", "fork", "function", "module", "task");
  private static final Set<String> DUMPS = Set.of("$dumpall", "$dumpoff", "$dumpon", "$dumpvars");
  private static final Map<String, Double> UNITS_NS =
      Map.of("s", 1e9, "ms", 1e6, "us", 1e3, "ns", 1.0, "ps", 1e-3, "fs", 1e-6);
  private static final Pattern TIMESCALE = Pattern.compile("(1|10|100)(s|ms|us|ns|ps|fs)");
  private static final String IDENTIFIER = "(?:[A-Za-z_][A-Za-z0-9_$]*|\\\\[!-~]+)";

  /** An escaped identifier ends with white space only, which is what keeps its brackets apart. */
  private static final Pattern REFERENCE =
      Pattern.compile("(" + IDENTIFIER + "|\\\\[!-~]+ ) ?(\\[(\\d+)(?: ?: ?(\\d+))?])?");

  private static final Pattern SCALAR = Pattern.compile("([01xXzZ])([!-~]+)");
  private static final Pattern VECTOR = Pattern.compile("[bB]([01xXzZ]+)");
  private static final Pattern REAL = Pattern.compile("[rR]([-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?)");
  private static final Pattern TIME = Pattern.compile("#([0-9]+)");

  private final Iterator<String> tokens;
  private final Map<String, List<VcdFile.Signal>> byCode = new HashMap<>();
  private final Map<String, VcdFile.Signal> byName = new LinkedHashMap<>();
  private final List<String> comments = new ArrayList<>();
  private double unitNs;
  private long timeTicks = -1;

  private VcdReader(String text) {
    if (!text.chars().allMatch(c -> c >= ' ' && c <= '~' || c == '\n' || c == '\t')) {
      throw new AssertionError("something else than printable ASCII");
    }
    tokens = Stream.of(text.strip().split("\\s+")).iterator();
  }

  public static VcdFile read(String text) {
    VcdReader reader = new VcdReader(text);
    reader.declarations();
    reader.simulation();
    check(reader.unitNs >= 1, "a timescale of nanoseconds or more, so that times are whole");
    long tickNs = Math.round(reader.unitNs);
    return new VcdFile(
        tickNs, reader.comments, reader.byName, Math.max(0, reader.timeTicks) * tickNs);
  }

  private void declarations() {
    Deque<String> scopes = new ArrayDeque<>();
    for (String keyword = next(); !keyword.equals("$enddefinitions"); keyword = next()) {
      switch (keyword) {
        case "$comment" -> comments.add(String.join(" ", toEnd()));
        case "$date", "$version" -> toEnd();
        case "$timescale" -> timescale(String.join("", toEnd()));
        case "$scope" -> {
          List<String> words = toEnd();
          check(words.size() == 2 && SCOPES.contains(words.get(0)), "scope " + words);
          check(words.get(1).matches(IDENTIFIER), "scope " + words);
          scopes.addLast(bare(words.get(1)));
        }
        case "$upscope" -> {
          check(toEnd().isEmpty() && !scopes.isEmpty(), "upscope");
          scopes.removeLast();
        }
        case "$var" -> variable(scopes, toEnd());
        default -> throw new AssertionError("no declaration: " + keyword);
      }
    }
    check(toEnd().isEmpty(), "enddefinitions is empty");
    check(scopes.isEmpty(), "open scopes " + scopes);
    check(unitNs > 0, "a timescale");
  }

  private void timescale(String text) {
    Matcher scale = TIMESCALE.matcher(text);
    check(scale.matches() && unitNs == 0, "timescale " + text);
    unitNs = Integer.parseInt(scale.group(1)) * UNITS_NS.get(scale.group(2));
  }

  private void variable(Deque<String> scopes, List<String> words) {
    check(words.size() >= 4 && TYPES.contains(words.get(0)), "variable " + words);
    int size = Integer.parseInt(words.get(1));
    String code = words.get(2);
    check(size > 0 && code.matches("[!-~]+"), "variable " + words);
    Matcher reference = REFERENCE.matcher(String.join(" ", words.subList(3, words.size())));
    check(reference.matches(), "reference of " + words);
    String select = reference.group(2) == null ? "" : reference.group(2);
    if (!select.isEmpty()) {
      int msb = Integer.parseInt(reference.group(3));
      int lsb = reference.group(4) == null ? msb : Integer.parseInt(reference.group(4));
      check(Math.abs(msb - lsb) + 1 == size, "as many bits as it says: " + words);
    }
    List<String> path = new ArrayList<>(scopes);
    path.add(bare(reference.group(1).strip()));
    VcdFile.Signal signal = new VcdFile.Signal(words.get(0), size, select.replace(" ", ""));
    boolean single = !select.isEmpty() && reference.group(4) == null;
    String name = String.join(".", path) + (single ? select : "");
    check(byName.put(name, signal) == null, "one variable " + name);
    byCode.computeIfAbsent(code, fresh -> new ArrayList<>()).add(signal);
  }

  private void simulation() {
    String dump = "";
    while (tokens.hasNext()) {
      String token = next();
      Matcher time = TIME.matcher(token);
      if (time.matches()) {
        long ticks = Long.parseLong(time.group(1));
        check(ticks > timeTicks, "time rises at " + token);
        timeTicks = ticks;
      } else if (DUMPS.contains(token)) {
        check(dump.isEmpty(), token + " within " + dump);
        dump = token;
      } else if (token.equals("$end")) {
        check(!dump.isEmpty(), "something to end");
        dump = "";
      } else if (token.equals("$comment")) {
        comments.add(String.join(" ", toEnd()));
      } else {
        change(token);
      }
    }
    check(dump.isEmpty(), "an end of " + dump);
  }

  private void change(String token) {
    Matcher scalar = SCALAR.matcher(token);
    Matcher vector = VECTOR.matcher(token);
    Matcher real = REAL.matcher(token);
    if (vector.matches()) {
      put(next(), vector.group(1).toLowerCase(java.util.Locale.ROOT), false);
    } else if (real.matches()) {
      put(next(), new BigDecimal(real.group(1)).stripTrailingZeros().toPlainString(), true);
    } else {
      check(scalar.matches(), "a value change: " + token);
      put(scalar.group(2), scalar.group(1).toLowerCase(java.util.Locale.ROOT), false);
    }
  }

  private void put(String code, String value, boolean real) {
    check(byCode.containsKey(code), "a declared variable " + code);
    for (VcdFile.Signal signal : byCode.get(code)) {
      check(real == signal.type().startsWith("real"), "a value of its type: " + value);
      check(real || value.length() <= signal.size(), value + " in " + signal.size() + " bits");
      long ns = Math.round(Math.max(0, timeTicks) * unitNs);
      signal.values().put(ns, real ? value : extended(value, signal.size()));
    }
  }

  /** Table 18-1: 0 and 1 are extended with 0, x with x, z with z. */
  private static String extended(String digits, int size) {
    char first = digits.charAt(0);
    String fill = first == '1' ? "0" : String.valueOf(first);
    return fill.repeat(size - digits.length()) + digits;
  }

  private static String bare(String identifier) {
    return identifier.startsWith("\\") ? identifier.substring(1) : identifier;
  }

  private List<String> toEnd() {
    List<String> words = new ArrayList<>();
    for (String word = next(); !word.equals("$end"); word = next()) {
      words.add(word);
    }
    return words;
  }

  private String next() {
    check(tokens.hasNext(), "more of the file");
    return tokens.next();
  }

  private static void check(boolean holds, String what) {
    if (!holds) {
      throw new AssertionError("wanted in a VCD: " + what);
    }
  }
}
