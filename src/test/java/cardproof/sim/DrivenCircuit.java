package cardproof.sim;

import cardproof.card.Card;
import java.util.BitSet;
import java.util.List;
import java.util.function.Consumer;
import java.util.function.IntConsumer;

/**
 * A card simulated from its behaviour, with somebody who looks at its driven lines where they enter
 * the card: beyond all that fixture and protocol know of themselves.
 */
public final class DrivenCircuit implements Circuit {
  private final Card card;
  private final Circuit inside;
  private final Consumer<BitSet> driven;
  private final BitSet before = new BitSet();

  /**
   * @param driven told of the card's lines that are driven, each time that this changes
   */
  public DrivenCircuit(Card card, long unit, Consumer<BitSet> driven) {
    this.card = card;
    this.inside = new BehaviourCircuit(card, List.of(), unit);
    this.driven = driven;
  }

  /** A bench with this circuit on it, each channel joined to the line of its place. */
  public SimulatedBench bench(SimSettings settings) {
    int lines = card.lines().size();
    Channels channels = Channels.of(Cards.driven(card), Cards.watched(card), lines);
    return new SimulatedBench(new Rig(this, channels, settings), settings.board());
  }

  @Override
  public void onChange(IntConsumer lineChanged) {
    inside.onChange(lineChanged);
  }

  @Override
  public void drive(long nowNs, BitSet lines) {
    if (!lines.equals(before)) {
      before.clear();
      before.or(lines);
      driven.accept(lines);
    }
    inside.drive(nowNs, lines);
  }

  @Override
  public long nextChangeNs() {
    return inside.nextChangeNs();
  }

  @Override
  public void advance(long nowNs) {
    inside.advance(nowNs);
  }

  @Override
  public boolean level(int line) {
    return inside.level(line);
  }

  @Override
  public void tap(WaveListener who) {
    inside.tap(who);
  }

  @Override
  public boolean fromWiring() {
    return inside.fromWiring();
  }

  @Override
  public boolean supplyTripped() {
    return inside.supplyTripped();
  }
}
