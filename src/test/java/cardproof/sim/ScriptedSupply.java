package cardproof.sim;

import java.util.BitSet;
import java.util.function.IntConsumer;

/** A circuit of dark lines with a supply that trips when told to. */
final class ScriptedSupply implements Circuit {
  private boolean powered = true;
  private boolean tripped;

  SimulatedBench bench(int drives, int watches, SimSettings settings) {
    int[] driven = new int[drives];
    int[] watched = new int[watches];
    for (int i = 0; i < drives; i++) {
      driven[i] = i;
    }
    for (int i = 0; i < watches; i++) {
      watched[i] = drives + i;
    }
    Channels channels = Channels.of(driven, watched, drives + watches);
    return new SimulatedBench(new Rig(this, channels, settings), "scripted");
  }

  void trip() {
    tripped = true;
  }

  boolean powered() {
    return powered;
  }

  @Override
  public void power(long nowNs, boolean on) {
    powered = on;
    tripped &= !on;
  }

  @Override
  public void onChange(IntConsumer lineChanged) {}

  @Override
  public void tap(WaveListener who) {}

  @Override
  public void drive(long nowNs, BitSet driven) {}

  @Override
  public long nextChangeNs() {
    return EventQueue.NEVER;
  }

  @Override
  public void advance(long nowNs) {}

  @Override
  public boolean level(int line) {
    return false;
  }

  @Override
  public boolean fromWiring() {
    return false;
  }

  @Override
  public boolean supplyTripped() {
    return tripped;
  }
}
