package cardproof.pty;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.ProcessBuilder.Redirect;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;

/**
 * A {@link Device} behind a pseudo-terminal in a process of its own, so that neither garbage
 * collection nor class loading of the program under test disturbs its timing, and so that it can be
 * killed.
 *
 * <p>Arguments of the process: the class of a {@link DeviceMaker}, then what that is given. It
 * writes one line {@code port <path>} whenever that changes, does what letters on its standard
 * input tell it to, and ends when that does.
 */
public final class PtyProcess implements AutoCloseable {
  /** Puts its plug into another socket. */
  public static final char REPLUG = 'u';

  private static final String READY = "port ";
  private static final long LINGER_MS = 50;
  private static final long END_S = 10;

  private final Process process;
  private volatile String port;
  private Optional<Thread> follower = Optional.empty();
  private boolean killed;

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
    for (int what = System.in.read(); what >= 0; what = System.in.read()) {
      if (what == REPLUG) {
        System.out.println(READY + peer.replug());
      } else {
        peer.command((char) what);
      }
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

  /** Hands on each further line that the device prints, in order, on a thread of its own. */
  public void follow(Consumer<String> taker) {
    BufferedReader lines = process.inputReader(StandardCharsets.UTF_8);
    Thread thread =
        new Thread(() -> lines.lines().forEach(line -> take(line, taker)), "lines of " + port);
    thread.setDaemon(true);
    thread.start();
    follower = Optional.of(thread);
  }

  private void take(String line, Consumer<String> taker) {
    if (line.startsWith(READY)) {
      port = line.substring(READY.length());
    } else {
      taker.accept(line);
    }
  }

  /** Tells it to do something: {@link #REPLUG}, or what its device understands. */
  public void command(char what) {
    try {
      process.getOutputStream().write(what);
      process.getOutputStream().flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Ends it with no time for a last word; lines that it has printed still come. */
  public void kill() {
    killed = true;
    process.toHandle().destroyForcibly(); // Process' own would close what is read here
  }

  /** Lets it end in order: its last bytes still come. A failure of it is one of the test. */
  @Override
  public void close() {
    try {
      process.getOutputStream().close();
      if (!process.waitFor(END_S, TimeUnit.SECONDS)) {
        process.destroyForcibly();
        throw new IllegalStateException("the device process did not end within " + END_S + " s");
      }
      if (follower.isPresent()) {
        follower.get().join(TimeUnit.SECONDS.toMillis(END_S));
      }
      if (!killed && process.exitValue() != 0) {
        throw new IllegalStateException("the device failed; see standard error");
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      process.destroyForcibly();
      Thread.currentThread().interrupt();
    }
  }
}
