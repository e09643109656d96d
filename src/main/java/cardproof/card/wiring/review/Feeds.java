package cardproof.card.wiring.review;

import cardproof.card.wiring.Terminal;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** The networks that decide whether a coil is fed. Not thread safe. */
final class Feeds {
  /**
   * One direction of current through a coil.
   *
   * @param up from its high end to the supply
   * @param down from its low end to ground
   */
  record Feed(Network up, Network down) {}

  private final Circuit circuit;
  private final Networks networks;
  private final AnyWay anyWay;

  Feeds(Circuit circuit, Networks networks, AnyWay anyWay) {
    this.circuit = circuit;
    this.networks = networks;
    this.anyWay = anyWay;
  }

  /** Directions in which some way could feed it: none, one or both. */
  List<Feed> of(int relay) {
    Load coil = circuit.coil(relay);
    List<Feed> feeds = new ArrayList<>(2);
    add(coil.first(), coil.second(), feeds);
    add(coil.second(), coil.first(), feeds);
    return feeds;
  }

  private void add(int up, int down, List<Feed> feeds) {
    if (up != Terminal.NOT_WIRED && anyWay.canBeHigh(up) && anyWay.canBeLow(down)) {
      feeds.add(new Feed(networks.toSupply(up), networks.toGround(down)));
    }
  }

  /** Relays with a contact in any of them. */
  BitSet relays(int relay) {
    BitSet all = new BitSet();
    for (Feed feed : of(relay)) {
      all.or(feed.up().relays());
      all.or(feed.down().relays());
    }
    return all;
  }

  /** Lines that, driven, may feed it. */
  BitSet lines(int relay) {
    BitSet all = new BitSet();
    for (Feed feed : of(relay)) {
      all.or(feed.up().lines());
    }
    return all;
  }

  boolean areTwoValued(int relay) {
    return of(relay).stream()
        .allMatch(feed -> Levels.areTwo(circuit, feed.up()) && Levels.areTwo(circuit, feed.down()));
  }

  /** When it is fed. */
  Table fed(int relay, Levels levels, int variables) {
    Table fed = Table.never(variables);
    for (Feed feed : of(relay)) {
      Table up =
          feed.up().node() == circuit.supply() ? Table.always(variables) : levels.of(feed.up());
      Table down =
          feed.down().node() == circuit.ground() ? Table.always(variables) : levels.of(feed.down());
      fed.orAnd(up, down);
    }
    return fed;
  }
}
