package cardproof.pty;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * A {@link Device} behind a pseudo-terminal in a process of its own, so that neither garbage
 * collection nor class loading of the program under test disturbs its timing, and so that it can be
 * killed.
 *
 * <p>Arguments of the process: the class of a {@link DeviceMaker}, then what that is given. It
 * writes one line {@code port <path>} and ends when its standard input does.
 */
public final class PtyProcess implements AutoCloseable {
  private static final String READY = "port ";
  private static final long LINGER_MS = 50;
  private static final long END_S = 10;

  private final Process process;
  private final String port;

  private PtyProcess(Process process, String port) {
    this.process = process;
    this.port = port;
  }

  public static void main(String[] args) throws Exception {
    DeviceMaker maker =
        Class.forName(args[0]).asSubclass(DeviceMaker.class).getConstructor().newInstance();
    String[] rest = List.of(args).subList(1, args.length).toArray(new String[0]);
    PtyPeer peer = PtyPeer.start(maker.make(rest));
    System.out.println(READY + peer.port());
    while (System.in.read() >= 0) {
      // Nothing is expected; the end of the stream is the sign to end.
    }
    peer.lingerAndHangUp(LINGER_MS);
    peer.close();
  }

  /** Starts it and waits until its port can be opened. */
  public static PtyProcess start(Class<? extends DeviceMaker> maker, String... arguments) {
    List<String> command = new ArrayList<>(Jvm.command(PtyProcess.class));
    command.add(maker.getName());
    command.addAll(List.of(arguments));
    try {
      Process process = new ProcessBuilder(command).redirectError(Redirect.INHERIT).start();
      return new PtyProcess(process, Jvm.awaitLine(process, READY));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  public String port() {
    return port;
  }

  /** Ends it with no time for a last word. */
  public void kill() {
    process.destroyForcibly();
  }

  /** Lets it end in order: its last bytes still come. */
  @Override
  public void close() {
    try {
      process.getOutputStream().close();
      if (!process.waitFor(END_S, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        throw new IllegalStateException("the device process did not end within " + END_S + " s");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      process.destroyForcibly();
      Thread.currentThread().interrupt();
    }
  }
}
