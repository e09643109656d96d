package cardproof.cli;

import cardproof.pty.Device;

/** A board whose plug is changed between two sessions; the change may come from another thread. */
final class ChangingPlug implements Device {
  private final Object lock = new Object();
  private Device board;

  ChangingPlug(Device board) {
    this.board = board;
  }

  void change(Device other) {
    synchronized (lock) {
      board = other;
    }
  }

  @Override
  public void receive(byte[] bytes, int count, long nowNs) {
    synchronized (lock) {
      board.receive(bytes, count, nowNs);
    }
  }

  @Override
  public long nextDueNs() {
    synchronized (lock) {
      return board.nextDueNs();
    }
  }

  @Override
  public int produce(byte[] into, long nowNs) {
    synchronized (lock) {
      return board.produce(into, nowNs);
    }
  }
}
