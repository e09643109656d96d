package cardproof.plan;

/**
 * A bus set to one word, or let go of.
 *
 * @param released whether the fixture drives none of the bus's lines
 */
public record Setting(int busIndex, long level, boolean released) {
  public static Setting to(int busIndex, long level) {
    return new Setting(busIndex, level, false);
  }

  public static Setting release(int busIndex) {
    return new Setting(busIndex, 0, true);
  }
}
