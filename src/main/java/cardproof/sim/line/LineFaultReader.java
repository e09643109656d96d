package cardproof.sim.line;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** Reads one {@link LineFault} from its words. */
final class LineFaultReader {
  private static final long USUAL_WINDOW_NS = 20_000_000;
  private static final List<String> KINDS =
      List.of("lose", "flip", "repeat", "reorder", "garbage", "delay", "speed", "cut", "stall");
  private static final List<String> ENDS =
      List.of(Direction.TO_FIXTURE.end(), Direction.TO_HOST.end());

  private final String text;
  private final Words words;

  LineFaultReader(String text) {
    this.text = text.strip().replaceAll("\\s+", " ");
    this.words = new Words(text);
  }

  LineFault read() {
    words.expect("link");
    Set<Direction> directions = directions();
    words.expect(":");
    List<Mishap> mishaps = new ArrayList<>();
    do {
      mishaps.add(mishap());
    } while (words.next(","));
    words.end();
    return new LineFault(text, directions, mishaps);
  }

  private Set<Direction> directions() {
    if (!words.next("to")) {
      return EnumSet.allOf(Direction.class);
    }
    String end = words.oneOf("where the link leads to", ENDS);
    return EnumSet.of(
        end.equals(Direction.TO_HOST.end()) ? Direction.TO_HOST : Direction.TO_FIXTURE);
  }

  private Mishap mishap() {
    String kind = words.oneOf("what befalls the link", KINDS);
    return switch (kind) {
      case "lose" -> lose();
      case "flip" -> new Flip(words.share());
      case "repeat" -> new Repeat(words.share());
      case "reorder" ->
          new Reorder(words.share(), words.next("within") ? words.timeNs() : USUAL_WINDOW_NS);
      case "garbage" -> new Garbage(words.share());
      case "delay" -> delay();
      case "speed" -> new Speed(words.baud());
      case "cut" -> new Cut(spells(true));
      case "stall" -> new Stall(spells(false));
      default -> throw new IllegalStateException(kind);
    };
  }

  private Mishap lose() {
    if (words.next("bytes")) {
      return new LoseBytes(words.share());
    }
    return new Lose(words.share(", or 'bytes' before it"));
  }

  private Delay delay() {
    long leastNs = words.timeNs();
    if (!words.next("to")) {
      return new Delay(leastNs, leastNs);
    }
    long mostNs = words.timeNs();
    if (mostNs < leastNs) {
      throw words.refused("a delay that ends before it begins", "the shorter time first", "");
    }
    return new Delay(leastNs, mostNs);
  }

  private Spells spells(boolean mayLast) {
    String when = words.oneOf("when", List.of("at", "every"));
    long startNs = words.timeNs();
    boolean once = when.equals("at");
    if (once && mayLast && !words.comes("for")) {
      return new Spells(startNs, Spells.FOR_GOOD, 0);
    }
    words.expect("for");
    long lengthNs = words.timeNs();
    if (!once && lengthNs >= startNs) {
      throw words.refused(
          "it would begin again before it ends", "a time between two starts that is longer", "");
    }
    return new Spells(startNs, lengthNs, once ? 0 : startNs);
  }
}
