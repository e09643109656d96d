package cardproof.pty;

import java.nio.file.Path;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.TimeUnit;

/**
 * Runs a {@link Device} behind a pseudo-terminal on a thread of its own, paced to real time: what
 * is due at t leaves at t or as soon after as the machine allows.
 */
public final class PtyPeer implements AutoCloseable {
  private static final long IDLE_NS = 20_000_000L;
  private static final long JOIN_MS = 5_000;

  private final Queue<Character> commands = new ConcurrentLinkedQueue<>();
  private volatile Pty pty = Pty.open();
  private final Device device;
  private final long startNs = System.nanoTime();
  private final Thread thread;
  private volatile boolean stopping;
  private volatile RuntimeException failure;

  private PtyPeer(Device device) {
    this.device = device;
    this.thread = new Thread(this::serve, "device behind " + pty.port());
    thread.setDaemon(true);
  }

  public static PtyPeer start(Device device) {
    PtyPeer peer = new PtyPeer(device);
    peer.thread.start();
    return peer;
  }

  public String port() {
    return pty.port();
  }

  public Path link(Path directory, String name) {
    return pty.link(directory, name);
  }

  /** Does something to the device, soon, on its own thread. */
  public void command(char what) {
    commands.add(what);
  }

  /** Pulls the plug and puts it into another socket; the device has power meanwhile. */
  public String replug() {
    Pty before = pty;
    pty = Pty.open();
    before.close();
    return pty.port();
  }

  private void serve() {
    try {
      byte[] in = new byte[4096];
      byte[] out = new byte[4096];
      int sent = 0;
      int ready = 0;
      while (!stopping) {
        long nowNs = System.nanoTime() - startNs;
        for (Character what = commands.poll(); what != null; what = commands.poll()) {
          device.command(what, nowNs);
        }
        if (sent == ready && device.nextDueNs() <= nowNs) {
          sent = 0;
          ready = device.produce(out, nowNs);
        }
        int appetite = Math.min(in.length, device.appetite(nowNs));
        long dueNs = device.nextDueNs();
        long waitNs = sent < ready || dueNs > nowNs + IDLE_NS ? IDLE_NS : dueNs - nowNs;
        if (!pty.await(appetite > 0, sent < ready, waitNs)) {
          continue;
        }
        if (appetite > 0) {
          byte[] portion = appetite < in.length ? new byte[appetite] : in;
          int count = pty.read(portion);
          if (count > 0) {
            device.receive(portion, count, System.nanoTime() - startNs);
          }
        }
        if (sent < ready) {
          sent += Math.max(0, pty.write(out, sent, ready));
        }
      }
    } catch (RuntimeException e) {
      failure = e;
    }
  }

  /** Waits until the device has stopped of itself, because it failed. */
  public void awaitEnd(long limitMs) {
    try {
      thread.join(limitMs);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  /** Pulls the plug: the driver sees the device go. */
  public void hangUp() {
    stopping = true;
    awaitEnd(JOIN_MS);
    pty.close();
  }

  /**
   * Lingers first, so that the last bytes are not lost with the hang-up, then as {@link #hangUp}.
   */
  public void lingerAndHangUp(long lingerMs) throws InterruptedException {
    TimeUnit.MILLISECONDS.sleep(lingerMs);
    hangUp();
  }

  /** Ends the device; a failure of it is a failure of the test. */
  @Override
  public void close() {
    hangUp();
    if (failure != null) {
      throw new IllegalStateException("the device behind " + pty.port() + " failed", failure);
    }
  }
}
