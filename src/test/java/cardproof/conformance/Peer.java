package cardproof.conformance;

import java.util.BitSet;
import java.util.List;
import java.util.Set;

/**
 * A fixture under test, with a card behind it that does what a {@link CardScript} says. Time is the
 * peer's own, virtual or real; only {@link #receive} lets virtual time pass. One thread at a time.
 */
interface Peer extends AutoCloseable {
  /** What a peer may lack. */
  enum Offer {
    /** {@link #switches} tells when the drives really switched. */
    TRUE_DRIVES,
    /** {@link #reset} with the causes of {@link #resetCauses}. */
    RESET,
    /** {@link #tripSupply}. */
    SUPPLY_TRIP,
    /** Time is virtual: the host's own speed plays no part. */
    EXACT_TIME
  }

  /** All drives that were on, after each change of one. */
  record Switch(long atNs, BitSet drives) {}

  Set<Offer> offers();

  Set<Integer> resetCauses();

  /** Puts bytes on the line. */
  void send(byte[] line);

  /** Returns what has come as soon as there is something, or nothing when the time is over. */
  byte[] receive(long untilNs);

  /** Returns what has come when the time is over, and some of it perhaps before. */
  default byte[] pass(long untilNs) {
    return receive(untilNs);
  }

  long nowNs();

  /** Since the peer was made, in order; by the same clock as {@link #nowNs}. */
  List<Switch> switches();

  void reset(int cause);

  /** The card draws too much, from then on until its supply is switched off. */
  default void tripSupply(long atNs) {
    throw new UnsupportedOperationException();
  }

  @Override
  void close();
}
