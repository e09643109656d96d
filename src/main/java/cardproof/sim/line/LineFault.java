package cardproof.sim.line;

import cardproof.text.RefusedException;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * What is wrong with the line to a simulated fixture, in plain words:
 *
 * <pre>
 *   link: MISHAP, MISHAP ...             both directions, each on its own
 *   link to fixture: MISHAP ...
 *   link to host: MISHAP ...
 *
 *   lose 1 %                             frames that never arrive
 *   lose bytes 1 %                       frames with up to four neighbouring bytes gone
 *   flip 1 %                             frames with one bit or three the other way
 *   repeat 1 %                           frames that come twice
 *   reorder 1 % within 20 ms             frames that later ones overtake; 20 ms where not said
 *   garbage 1 %                          frames with up to sixteen stray bytes before them
 *   delay 16 ms                          what every frame takes
 *   delay 2 ms to 16 ms                  the same, drawn anew for each; none overtakes another
 *   speed 250000 baud                    bits a second, ten for each byte
 *   cut at 5 s                           dead from then on
 *   cut at 5 s for 200 ms                dead for a time
 *   cut every 5 s for 200 ms             again and again
 *   stall at 5 s for 200 ms              nothing comes for a time, then all of it
 *   stall every 5 s for 200 ms
 * </pre>
 *
 * <p>Mishaps lie along the line in the order in which they are written, which a frame meets one
 * after another whichever way it goes. Times are counted from when the bench was switched on. Case
 * and white space do not matter.
 */
public final class LineFault {
  private static final String PREFIX = "link";

  private final String name;
  private final Set<Direction> directions;
  private final List<Mishap> mishaps;

  LineFault(String name, Set<Direction> directions, List<Mishap> mishaps) {
    this.name = name;
    this.directions = EnumSet.copyOf(directions);
    this.mishaps = List.copyOf(mishaps);
  }

  /** Whether this names a fault of the line rather than one of the card. */
  public static boolean isOne(String text) {
    String head = text.strip().toLowerCase(Locale.ROOT);
    return text.indexOf(':') > 0 && head.matches(PREFIX + "[\\s:].*");
  }

  /**
   * @throws RefusedException when it does not parse; says what was wanted and the nearest word
   */
  public static LineFault parse(String text) {
    return new LineFaultReader(text).read();
  }

  /** As it was written, without needless white space. */
  public String name() {
    return name;
  }

  List<Mishap> on(Direction direction) {
    return directions.contains(direction) ? mishaps : List.of();
  }

  @Override
  public String toString() {
    return name;
  }
}
