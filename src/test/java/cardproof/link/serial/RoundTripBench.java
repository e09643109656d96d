package cardproof.link.serial;

import cardproof.pty.Device;
import cardproof.pty.DeviceMaker;
import cardproof.pty.Devices;
import cardproof.pty.PtyProcess;
import java.util.Arrays;
import java.util.Locale;

/**
 * Round trip of one frame through the whole wire and a pseudo-terminal to another process and back;
 * a program, not a test: what it prints is a measurement of this machine.
 */
final class RoundTripBench {
  private static final int WARM_UP = 20_000;
  private static final int MEASURED = 50_000;
  private static final int FRAME_BYTES = 48;

  private RoundTripBench() {}

  public static void main(String[] args) {
    try (PtyProcess process = PtyProcess.start(EchoMaker.class);
        SerialWire wire = SerialWire.open(process.port(), 250_000)) {
      run(wire, WARM_UP);
      long[] ns = run(wire, MEASURED);
      Arrays.sort(ns);
      System.out.printf(
          Locale.ROOT,
          "%d round trips of %d bytes: median %.1f us, p99 %.1f us, p99.9 %.1f us, max %.1f us%n",
          ns.length,
          FRAME_BYTES,
          ns[ns.length / 2] / 1e3,
          ns[ns.length * 99 / 100] / 1e3,
          ns[(int) (ns.length * 0.999)] / 1e3,
          ns[ns.length - 1] / 1e3);
    }
  }

  private static long[] run(SerialWire wire, int count) {
    byte[] frame = new byte[FRAME_BYTES];
    byte[] into = new byte[FRAME_BYTES];
    long[] ns = new long[count];
    for (int i = 0; i < count; i++) {
      long start = wire.nowNs();
      wire.write(frame);
      int got = 0;
      while (got < FRAME_BYTES) {
        int n = wire.read(into, start + 1_000_000_000L);
        if (n == 0) {
          throw new IllegalStateException("no answer within 1 s at round trip " + i);
        }
        got += n;
      }
      ns[i] = wire.nowNs() - start;
    }
    return ns;
  }

  /** In the other process. */
  public static final class EchoMaker implements DeviceMaker {
    @Override
    public Device make(String... arguments) {
      return Devices.echo();
    }
  }
}
