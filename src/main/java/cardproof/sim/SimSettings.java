package cardproof.sim;

import cardproof.card.fault.Fault;
import cardproof.link.Protocol;
import cardproof.sim.line.LineFault;
import java.util.List;
import java.util.Objects;

/**
 * What a simulated bench is to be like. The same settings give the same bench to the byte.
 *
 * @param seed of everything that is drawn
 * @param unit which copy of the card; another one has other times
 * @param faults what is wrong with it
 * @param slots steps that the fixture keeps, at least 2, at most 255
 * @param samplingNs between two samples, from 100 ns to 10 ms
 * @param lineDelayUs that bytes take each way, 0 for none
 * @param lineFaults what is wrong with the line, beyond that delay
 * @param board what the fixture calls itself, printable ASCII, at most 31 letters
 * @param protocolMinor version of the protocol that the fixture speaks: 1.0 has no sequences
 * @param supply what the fixture can do with the card's supply
 */
public record SimSettings(
    long seed,
    String unit,
    List<Fault> faults,
    int slots,
    long samplingNs,
    long lineDelayUs,
    List<LineFault> lineFaults,
    String board,
    int protocolMinor,
    SimSupply supply) {
  public static final int DEFAULT_SLOTS = 16;
  public static final long DEFAULT_SAMPLING_NS = 50_000;
  public static final String DEFAULT_BOARD = "simulated bench";

  private static final int MOST_SLOTS = 255;
  private static final long LEAST_SAMPLING_NS = 100;
  private static final long MOST_SAMPLING_NS = 10_000_000;
  private static final long LONGEST_DELAY_US = 10_000_000;
  private static final int LONGEST_NAME = 31;

  public SimSettings {
    Objects.requireNonNull(unit);
    Objects.requireNonNull(supply);
    faults = List.copyOf(faults);
    lineFaults = List.copyOf(lineFaults);
    check(slots >= Protocol.FEWEST_SLOTS && slots <= MOST_SLOTS, slots + " slots");
    check(
        samplingNs >= LEAST_SAMPLING_NS && samplingNs <= MOST_SAMPLING_NS,
        "a sampling period of " + samplingNs + " ns");
    check(protocolMinor >= 0 && protocolMinor <= Protocol.MINOR, "protocol 1." + protocolMinor);
    check(lineDelayUs >= 0 && lineDelayUs <= LONGEST_DELAY_US, "a delay of " + lineDelayUs + " us");
    check(
        board.length() <= LONGEST_NAME && board.chars().allMatch(c -> c >= ' ' && c <= '~'),
        "the board name '" + board + "'");
  }

  /** Which relays the copy of the card was built with: the lower 32 bits of the seed. */
  public long relaySeed() {
    return relaySeed(seed);
  }

  /** Which time this copy is on the bench: the upper 32 bits of the seed. */
  public long session() {
    return session(seed);
  }

  /** The lower 32 bits of a seed, see {@link #relaySeed()}. */
  public static long relaySeed(long seed) {
    return seed & 0xFFFF_FFFFL;
  }

  /** The upper 32 bits of a seed, see {@link #session()}. */
  public static long session(long seed) {
    return seed >>> 32;
  }

  /** The seed of the same copy another time. */
  public static long seed(long relaySeed, long session) {
    return relaySeed(relaySeed) | session << 32;
  }

  /** With a fixture that speaks the newest version of the protocol. */
  public SimSettings(
      long seed,
      String unit,
      List<Fault> faults,
      int slots,
      long samplingNs,
      long lineDelayUs,
      List<LineFault> lineFaults,
      String board) {
    this(
        seed,
        unit,
        faults,
        slots,
        samplingNs,
        lineDelayUs,
        lineFaults,
        board,
        Protocol.MINOR,
        SimSupply.UNSEEN);
  }

  /** A sound unit on a bench with usual figures and a line without delay. */
  public static SimSettings of(long seed, String unit) {
    return new SimSettings(
        seed, unit, List.of(), DEFAULT_SLOTS, DEFAULT_SAMPLING_NS, 0, List.of(), DEFAULT_BOARD);
  }

  public SimSettings withProtocolMinor(int other) {
    return new SimSettings(
        seed, unit, faults, slots, samplingNs, lineDelayUs, lineFaults, board, other, supply);
  }

  public SimSettings withFaults(List<Fault> others) {
    return new SimSettings(
        seed,
        unit,
        others,
        slots,
        samplingNs,
        lineDelayUs,
        lineFaults,
        board,
        protocolMinor,
        supply);
  }

  public SimSettings withSlots(int others) {
    return new SimSettings(
        seed,
        unit,
        faults,
        others,
        samplingNs,
        lineDelayUs,
        lineFaults,
        board,
        protocolMinor,
        supply);
  }

  public SimSettings withLineDelayUs(long other) {
    return new SimSettings(
        seed, unit, faults, slots, samplingNs, other, lineFaults, board, protocolMinor, supply);
  }

  public SimSettings withLineFaults(List<LineFault> others) {
    return new SimSettings(
        seed, unit, faults, slots, samplingNs, lineDelayUs, others, board, protocolMinor, supply);
  }

  public SimSettings withSupply(SimSupply other) {
    return new SimSettings(
        seed,
        unit,
        faults,
        slots,
        samplingNs,
        lineDelayUs,
        lineFaults,
        board,
        protocolMinor,
        other);
  }

  private static void check(boolean holds, String what) {
    if (!holds) {
      throw new IllegalArgumentException("a simulated bench cannot have " + what);
    }
  }
}
