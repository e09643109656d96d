package cardproof.link;

import java.util.PriorityQueue;
import java.util.Random;

/**
 * One direction of a line in virtual time. Loses, repeats, damages and delays what is written, as a
 * seeded source of chance says; a delayed frame is overtaken by later ones.
 */
final class NoisyLine {
  /** 8N1 at 250,000 baud: ten bits a byte. */
  private static final long BYTE_NS = 40_000;

  private static final long LATENCY_NS = 300_000;

  /** How often each mishap befalls a frame. */
  record Noise(double lost, double repeated, double damaged, double delayed, long mostDelayMs) {
    static final Noise NONE = new Noise(0, 0, 0, 0, 0);

    static Noise each(double rate) {
      return new Noise(rate, rate, rate, rate, 120);
    }
  }

  private record Piece(long atNs, long order, byte[] bytes) implements Comparable<Piece> {
    @Override
    public int compareTo(Piece other) {
      int byTime = Long.compare(atNs, other.atNs);
      return byTime != 0 ? byTime : Long.compare(order, other.order);
    }
  }

  private final Random random;
  private final PriorityQueue<Piece> pieces = new PriorityQueue<>();
  private Noise noise = Noise.NONE;
  private boolean cut;
  private long order;
  private long freeNs;
  private long written;
  private long deepest;

  NoisyLine(long seed) {
    this.random = new Random(seed);
  }

  void noise(Noise next) {
    noise = next;
  }

  /** From now on nothing gets through. */
  void cut() {
    cut = true;
  }

  void write(byte[] bytes, long nowNs) {
    written++;
    if (cut || chance(noise.lost())) {
      return;
    }
    freeNs = Math.max(freeNs, nowNs) + bytes.length * BYTE_NS;
    deepest = Math.max(deepest, (freeNs - nowNs) / BYTE_NS);
    put(bytes);
    if (chance(noise.repeated())) {
      put(bytes);
    }
  }

  /** When the next bytes arrive. */
  long nextNs() {
    return pieces.isEmpty() ? Long.MAX_VALUE : pieces.peek().atNs();
  }

  /** Takes bytes that have arrived by now; empty when there are none. */
  byte[] take(long nowNs) {
    return nextNs() <= nowNs ? pieces.poll().bytes() : new byte[0];
  }

  /** Calls of write, which is to say frames and zero bytes. */
  long written() {
    return written;
  }

  /** The most bytes that were ever waiting to leave. */
  long deepest() {
    return deepest;
  }

  private void put(byte[] bytes) {
    long atNs = freeNs + LATENCY_NS;
    if (chance(noise.delayed())) {
      atNs += random.nextInt((int) noise.mostDelayMs()) * 1_000_000L;
    }
    pieces.add(new Piece(atNs, order++, chance(noise.damaged()) ? damaged(bytes) : bytes));
  }

  private byte[] damaged(byte[] bytes) {
    if (bytes.length > 1 && random.nextBoolean()) {
      byte[] shorter = new byte[bytes.length - 1];
      int gone = random.nextInt(bytes.length);
      System.arraycopy(bytes, 0, shorter, 0, gone);
      System.arraycopy(bytes, gone + 1, shorter, gone, shorter.length - gone);
      return shorter;
    }
    byte[] flipped = bytes.clone();
    for (int i = 0; i <= random.nextInt(3); i++) {
      flipped[random.nextInt(flipped.length)] ^= (byte) (1 << random.nextInt(8));
    }
    return flipped;
  }

  private boolean chance(double rate) {
    return rate > 0 && random.nextDouble() < rate;
  }
}
