package cardproof.files;

import java.util.ArrayList;
import java.util.List;

/** What the names of a repeat stand for at one moment. Changes as the repeat goes on. */
final class RepeatValues {
  /** Outside of any repeat. */
  static final RepeatValues NONE = new RepeatValues(List.of());

  private final List<String> names;
  private final long[] values;

  RepeatValues(List<String> names) {
    this.names = List.copyOf(names);
    this.values = new long[names.size()];
  }

  void set(int index, long value) {
    values[index] = value;
  }

  long value(String name) {
    return values[names.indexOf(name)];
  }

  /** {@code w = 1, i = 3}; empty outside of any repeat. */
  @Override
  public String toString() {
    List<String> shown = new ArrayList<>();
    for (int i = 0; i < values.length; i++) {
      shown.add(names.get(i) + " = " + values[i]);
    }
    return String.join(", ", shown);
  }
}
