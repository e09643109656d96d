package cardproof.plan;

/**
 * A bus, or some lines of it, set to one word or let go of.
 *
 * @param mask the lines it is about; bits beyond the width of the bus mean nothing
 * @param level their levels, in their places
 * @param released whether the fixture drives none of these lines
 */
public record Setting(int busIndex, long mask, long level, boolean released) {
  public static Setting to(int busIndex, long level) {
    return new Setting(busIndex, -1L, level, false);
  }

  public static Setting release(int busIndex) {
    return new Setting(busIndex, -1L, 0, true);
  }
}
