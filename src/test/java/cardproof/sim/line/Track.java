package cardproof.sim.line;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Numbered frames that were sent one each millisecond, and what came out of the line. */
final class Track {
  static final int LENGTH = 12;
  private static final long MS = 1_000_000;

  private final List<Piece> pieces = new ArrayList<>();

  static Track of(int frames, long seed, String... faults) {
    return of(
        frames,
        seed,
        Direction.TO_HOST,
        Arrays.stream(faults).map(LineFault::parse).toArray(LineFault[]::new));
  }

  static Track of(int frames, long seed, Direction direction, LineFault... faults) {
    NoisyLine line = NoisyLine.of(direction, 0, List.of(faults), seed);
    Track track = new Track();
    for (int i = 0; i < frames; i++) {
      line.send(frame(i), i * MS);
      track.collect(line, i * MS);
    }
    track.collect(line, Long.MAX_VALUE - 1);
    return track;
  }

  private void collect(NoisyLine line, long toNs) {
    while (line.nextNs() <= toNs) {
      long atNs = line.nextNs();
      byte[] out = line.take(atNs);
      if (out.length > 0) {
        pieces.add(new Piece(out, atNs));
      }
    }
  }

  List<Piece> pieces() {
    return pieces;
  }

  /** Numbers of the frames that came whole. */
  List<Integer> numbers() {
    return pieces.stream().map(p -> number(p.bytes())).filter(number -> number >= 0).toList();
  }

  /** Frames that came as they were sent, at once. */
  long asSent() {
    return lateMs().stream().filter(ms -> ms == 0).count();
  }

  List<Double> lateMs() {
    return pieces.stream().map(p -> (p.atNs() - number(p.bytes()) * MS) / (double) MS).toList();
  }

  List<String> shown() {
    return pieces.stream().map(p -> p.atNs() + " " + Arrays.toString(p.bytes())).toList();
  }

  /** Whether what is left of a frame lacks one stretch of so many bytes. */
  static boolean isWithoutNeighbours(byte[] rest, int gone) {
    for (int at = 0; at <= rest.length; at++) {
      boolean fits = true;
      for (int i = 0; i < rest.length && fits; i++) {
        fits = i < at ? isAt(rest, i, i) : isAt(rest, i, i + gone);
      }
      if (fits) {
        return true;
      }
    }
    return false;
  }

  /** The bytes behind the number tell their own place. */
  private static boolean isAt(byte[] bytes, int i, int place) {
    return place < 6 || bytes[i] == (place == LENGTH - 1 ? 0 : (byte) (100 + place));
  }

  /** A number in six digits from 1 to 10, then places, then a zero. */
  private static byte[] frame(int number) {
    byte[] bytes = new byte[LENGTH];
    int rest = number;
    for (int i = 0; i < LENGTH - 1; i++) {
      bytes[i] = (byte) (i < 6 ? 1 + rest % 10 : 100 + i);
      rest /= 10;
    }
    return bytes;
  }

  private static int number(byte[] bytes) {
    int number = 0;
    if (bytes.length != LENGTH) {
      return -1;
    }
    for (int i = 5; i >= 0; i--) {
      number = number * 10 + bytes[i] - 1;
    }
    return Arrays.equals(bytes, frame(Math.max(0, number))) && number < 1_000_000 ? number : -1;
  }
}
