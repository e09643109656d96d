package cardproof.firmware;

import java.util.BitSet;

/**
 * Which watch follows which drive: six drives, and watches on every port that the chip samples.
 *
 * @param watchOfDrive by drive channel
 */
record Lines(int... watchOfDrive) {
  static Lines of(Chip chip) {
    return switch (chip) {
      case M2560 -> new Lines(0, 7, 9, 14, 16, 23);
      case M328P -> new Lines(0, 2, 3, 5, 6, 7);
      case M328P_SHIFT -> new Lines(0, 7, 9, 14, 16, 23);
    };
  }

  int count() {
    return watchOfDrive.length;
  }

  /** The watches that are at 1 when these drives are on. */
  BitSet follow(BitSet drives) {
    BitSet watches = new BitSet();
    for (int drive = 0; drive < watchOfDrive.length; drive++) {
      watches.set(watchOfDrive[drive], drives.get(drive));
    }
    return watches;
  }

  /** All watches that follow. */
  BitSet watches() {
    BitSet drives = new BitSet();
    drives.set(0, watchOfDrive.length);
    return follow(drives);
  }
}
