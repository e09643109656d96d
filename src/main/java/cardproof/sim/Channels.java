package cardproof.sim;

import java.util.BitSet;

/**
 * Which line of the card each channel of the fixture is joined to. A fixture has one drive and one
 * watch at least, so a card without inputs or outputs gets one that is joined to nothing.
 *
 * @param lines how many the card has
 */
record Channels(int[] lineOfDrive, int[] lineOfWatch, int lines) {
  static final int NOTHING = -1;
  private static final int MOST = 255;

  static Channels of(int[] lineOfDrive, int[] lineOfWatch, int lines) {
    return new Channels(
        checked(lineOfDrive, lines, "drive"), checked(lineOfWatch, lines, "watch"), lines);
  }

  int drives() {
    return lineOfDrive.length;
  }

  int watches() {
    return lineOfWatch.length;
  }

  /** Lines of the card that are driven when these drives are on. */
  void linesOf(BitSet drives, BitSet into) {
    into.clear();
    for (int drive = drives.nextSetBit(0); drive >= 0; drive = drives.nextSetBit(drive + 1)) {
      if (lineOfDrive[drive] != NOTHING) {
        into.set(lineOfDrive[drive]);
      }
    }
  }

  private static int[] checked(int[] lineOf, int lines, String kind) {
    if (lineOf.length > MOST) {
      throw new IllegalArgumentException(lineOf.length + " channels of kind " + kind);
    }
    BitSet used = new BitSet();
    for (int line : lineOf) {
      if (line < NOTHING || line >= lines || line != NOTHING && used.get(line)) {
        throw new IllegalArgumentException(
            kind + " channel on line " + line + " of " + lines + ", or a second one there");
      }
      if (line != NOTHING) {
        used.set(line);
      }
    }
    return lineOf.length == 0 ? new int[] {NOTHING} : lineOf.clone();
  }
}
