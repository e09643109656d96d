package cardproof.sim.circuit;

import cardproof.card.wiring.Figure;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;

/**
 * How long one relay of one unit takes, drawn from the figures of its type and keyed by its name,
 * so that another part more or less on the card leaves its times alone.
 */
final class RelayTiming {
  /** No stroke is shorter: break before make then leaves at least 100 us between the two. */
  private static final double LEAST_NS = 500_000;

  private static final double OPERATION_SPREAD = 0.015;
  private static final double NS_PER_US = 1000;
  private static final int OPERATE = 1;
  private static final int RELEASE = 2;
  private static final int EACH_OPERATE = 3;
  private static final int EACH_RELEASE = 4;

  private final long key;
  private final double factor;
  private final double coilOhms;
  private final Range operate;
  private final Range release;
  private final Range slowRelease;
  private final double slowerNs;

  /** A time of this relay, and what bounds it on the sheet. */
  private record Range(double baseNs, double leastNs, double mostNs) {
    /** Most units lie near the middle of what the sheet allows. */
    static Range drawn(Figure figure, long key) {
      double part = (Draws.unit(Draws.key(key, 0)) + Draws.unit(Draws.key(key, 1))) / 2;
      double least = figure.leastUs() * NS_PER_US;
      double most = figure.mostUs() * NS_PER_US;
      return new Range(least + part * (most - least), least, most);
    }

    double each(long key, double factor) {
      double ns = baseNs * factor * Draws.around1(key, OPERATION_SPREAD);
      return Math.max(leastNs, Math.min(mostNs, ns));
    }
  }

  RelayTiming(Relay relay, Occasion occasion, long slowerUs) {
    RelayType type = relay.type();
    this.key = Draws.key(occasion.unit(), relay.name());
    this.factor = occasion.factor(key);
    this.coilOhms = type.coilOhms();
    this.operate = Range.drawn(type.operate(), Draws.key(key, OPERATE));
    this.release = Range.drawn(type.release(), Draws.key(key, RELEASE));
    this.slowRelease = Range.drawn(type.releaseWithDiode(), Draws.key(key, RELEASE));
    this.slowerNs = slowerUs * NS_PER_US;
  }

  long key() {
    return key;
  }

  double operateNs(long operation) {
    long draw = Draws.key(Draws.key(key, EACH_OPERATE), operation);
    return Math.max(LEAST_NS, operate.each(draw, factor) + slowerNs);
  }

  /**
   * The current of a coil that is switched off dies away by L / (R + r), with r across it, so the
   * time lies between that of a coil with nothing across it and that of one with a diode, by R / (R
   * + r).
   *
   * @param acrossOhms what the coil's current finds to flow on through; infinite for nothing
   */
  double releaseNs(long operation, double acrossOhms) {
    long draw = Draws.key(Draws.key(key, EACH_RELEASE), operation);
    double fast = release.each(draw, factor);
    double slow = Math.max(fast, slowRelease.each(draw, factor));
    double part = coilOhms / (coilOhms + acrossOhms);
    return Math.max(LEAST_NS, fast + part * (slow - fast) + slowerNs);
  }
}
