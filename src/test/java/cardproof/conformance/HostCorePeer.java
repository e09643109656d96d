package cardproof.conformance;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.net.StandardProtocolFamily;
import java.net.UnixDomainSocketAddress;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.SocketChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;

/**
 * The reference fixture's core as a program of this machine, in time that only this class lets
 * pass: bytes over its standard streams, commands over a socket.
 */
final class HostCorePeer implements Peer {
  /** Fine enough at first that an answer is not waited for much longer than it took. */
  private static final long SHORTEST_US = 2000;

  private static final long LONGEST_US = 8000;

  private static final int PATIENCE_S = 20;

  /**
   * @param options of the program, beyond those of its lines
   */
  record Maker(String name, int drives, int watches, Path program, List<String> options)
      implements PeerMaker {
    @Override
    public Peer start(CardScript card) {
      try {
        Path folder = Files.createTempDirectory("bench");
        Path rules = Files.write(folder.resolve("card"), CardFile.of(card));
        List<String> words = new ArrayList<>();
        words.add(program.toString());
        words.addAll(
            List.of("--drives", "" + drives, "--watches", "" + watches, "--time", "control"));
        words.addAll(List.of("--card", rules.toString()));
        words.addAll(List.of("--control", "unix:" + folder.resolve("control")));
        words.addAll(options);
        return new HostCorePeer(folder, words);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private final Path folder;
  private final Process process;
  private final SocketChannel control;
  private final BufferedReader answers;
  private final List<Switch> switches = new ArrayList<>();
  private final BitSet drives = new BitSet();
  private long nowUs;
  private long sliceUs = SHORTEST_US;

  private HostCorePeer(Path folder, List<String> words) throws IOException {
    this.folder = folder;
    try (WatchService names = folder.getFileSystem().newWatchService()) {
      folder.register(names, StandardWatchEventKinds.ENTRY_CREATE);
      this.process =
          new ProcessBuilder(words).redirectError(ProcessBuilder.Redirect.INHERIT).start();
      this.control = connected(folder.resolve("control"), names, process);
    }
    this.answers =
        new BufferedReader(
            new InputStreamReader(Channels.newInputStream(control), StandardCharsets.UTF_8));
    ask("state");
  }

  /** The program gives the socket its name once it listens. */
  private static SocketChannel connected(Path socket, WatchService names, Process process)
      throws IOException {
    for (int i = 0; i < PATIENCE_S && !Files.exists(socket); i++) {
      if (!process.isAlive()) {
        throw new AssertionError("the host port ended with " + process.exitValue());
      }
      await(names);
    }
    if (!Files.exists(socket)) {
      process.destroyForcibly();
      throw new AssertionError("the host port opens no control socket");
    }
    SocketChannel channel = SocketChannel.open(StandardProtocolFamily.UNIX);
    channel.connect(UnixDomainSocketAddress.of(socket));
    return channel;
  }

  /** Until a name in the folder is new, or for a second. */
  private static void await(WatchService names) {
    try {
      WatchKey key = names.poll(1, TimeUnit.SECONDS);
      if (key != null) {
        key.pollEvents();
        key.reset();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  /** Says a command and takes what is told before its answer. */
  private void ask(String command) {
    try {
      control.write(ByteBuffer.wrap((command + "\n").getBytes(StandardCharsets.UTF_8)));
      while (true) {
        String line = answers.readLine();
        if (line == null) {
          throw new AssertionError("the host port is gone");
        }
        String[] words = line.split(" ");
        if (words[0].equals("error:")) {
          throw new AssertionError(line);
        }
        long atUs = Long.parseLong(words[java.util.Arrays.asList(words).indexOf("at") + 1]);
        nowUs = Math.max(nowUs, atUs);
        if (!words[0].equals("drive")) {
          return;
        }
        drives.set(Integer.parseInt(words[1]), words[2].equals("1"));
        switches.add(new Switch(atUs * 1000, (BitSet) drives.clone()));
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public Set<Offer> offers() {
    return EnumSet.of(Offer.TRUE_DRIVES, Offer.RESET, Offer.EXACT_TIME);
  }

  @Override
  public Set<Integer> resetCauses() {
    return Set.of(0, 1, 2, 3, 4, 5);
  }

  /** The program takes these in before a command that comes later: it looks here first. */
  @Override
  public void send(byte[] line) {
    try {
      sliceUs = SHORTEST_US;
      process.getOutputStream().write(line);
      process.getOutputStream().flush();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public byte[] receive(long untilNs) {
    try {
      while (true) {
        int there = process.getInputStream().available();
        if (there > 0) {
          sliceUs = SHORTEST_US;
          return process.getInputStream().readNBytes(there);
        }
        long leftUs = (untilNs - nowNs() + 999) / 1000;
        if (leftUs <= 0) {
          return new byte[0];
        }
        ask("advance " + Math.min(sliceUs, leftUs));
        sliceUs = Math.min(LONGEST_US, 2 * sliceUs);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public byte[] pass(long untilNs) {
    try {
      ask("advance " + Math.max(0, (untilNs - nowNs() + 999) / 1000));
      return process.getInputStream().readNBytes(process.getInputStream().available());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public long nowNs() {
    return nowUs * 1000;
  }

  @Override
  public List<Switch> switches() {
    return switches;
  }

  @Override
  public void reset(int cause) {
    ask("reset " + cause);
  }

  @Override
  public void close() {
    process.destroyForcibly();
    try {
      control.close();
      for (String name : List.of("card", "control")) {
        Files.deleteIfExists(folder.resolve(name));
      }
      Files.delete(folder);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
