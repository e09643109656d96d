package cardproof.sim;

import java.util.BitSet;

/** The drives of the fixture, all of which switch at one instant. */
final class Drives {
  private final EventQueue queue;
  private final Channels channels;
  private final Sampler sampler;
  private final BitSet on = new BitSet();
  private final BitSet lines = new BitSet();
  private DriveListener listener = (nowNs, drives) -> {};

  Drives(EventQueue queue, Channels channels, Sampler sampler) {
    this.queue = queue;
    this.channels = channels;
    this.sampler = sampler;
  }

  void listen(DriveListener who) {
    listener = who;
  }

  /** Drives that are on. Not to be changed. */
  BitSet on() {
    return on;
  }

  /** Switches to what a step asks for; this fixture sources only, so 0 means released. */
  void set(BitSet level, BitSet enable) {
    boolean same = true;
    for (int drive = 0; same && drive < channels.drives(); drive++) {
      same = on.get(drive) == (level.get(drive) && enable.get(drive));
    }
    if (!same) {
      on.clear();
      on.or(level);
      on.and(enable);
      switchAll();
    }
  }

  /** Releases every drive. */
  void drop() {
    if (!on.isEmpty()) {
      on.clear();
      switchAll();
    }
  }

  private void switchAll() {
    channels.linesOf(on, lines);
    sampler.drive(lines);
    listener.drivesSwitched(queue.nowNs(), (BitSet) on.clone());
  }
}
