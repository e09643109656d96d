package cardproof.run;

/**
 * Something on a card, or on the fixture, that takes current from the supply.
 *
 * @param name of the part; empty for an input of the fixture
 * @param milliamps that it takes at the supply's own voltage
 * @param line index of the watched line that it lies between and ground; below 0 where none
 */
public record RestLoad(String name, Kind kind, double milliamps, int line) {
  /** What kinds are told apart by. */
  public enum Kind {
    COIL("coil"),
    LAMP("lamp"),
    OTHER("load");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    String word() {
      return word;
    }
  }
}
