package cardproof.firmware;

import cardproof.sim.PinSide;
import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.TimeUnit;

/**
 * The firmware on a simulated chip in a process of its own, behind a pseudo-terminal, with a card
 * at its pins. A thread answers for the card, in step with the chip's clock.
 */
public final class ChipBench implements AutoCloseable {
  private static final double NS_PER_CYCLE = 62.5;
  private static final long PATIENCE_S = 20;

  /**
   * A change of the chip's pins, at a cycle of its clock; kind d for drives, w for watches, r for a
   * reset.
   */
  public record Edge(long cycle, char kind, long levels) {
    public double us() {
      return cycle / 16.0;
    }
  }

  private final Process process;
  private final BufferedWriter toChip;
  private final BufferedReader fromChip;
  private final PinSide card;
  private final Path port;
  private final Path folder;
  private final BlockingQueue<String> answers = new ArrayBlockingQueue<>(16);
  private final Thread thread;
  private long nowNs;

  private ChipBench(Program program, PinSide card, Path folder, boolean port) throws IOException {
    this.card = card;
    this.folder = folder;
    this.port = folder.resolve("port");
    List<String> words = new ArrayList<>(List.of(Built.bench().toString()));
    words.addAll(List.of("--elf", program.elf.toString(), "--mcu", program.controller));
    words.addAll(program.channels);
    words.addAll(List.of("--heap", Integer.toString(Built.address(program.elf, "_end"))));
    if (port) {
      words.addAll(List.of("--pty", this.port.toString()));
    }
    this.process =
        new ProcessBuilder(words).redirectError(folder.resolve("chip.log").toFile()).start();
    this.toChip = process.outputWriter();
    this.fromChip = process.inputReader();
    this.thread = new Thread(this::serve, "card at the chip's pins");
    thread.setDaemon(true);
    thread.start();
    if (!"ready".equals(answer())) {
      throw new AssertionError(Files.readString(folder.resolve("chip.log")));
    }
  }

  /**
   * What a chip runs, the controller's name, and how the simulated chip is told of its channels.
   */
  record Program(Path elf, String controller, List<String> channels) {
    /** Pins of channels, lowest first, such as {@code C0,C1}. */
    static Program of(Path elf, String controller, String drivePins, String watchPins) {
      return new Program(elf, controller, List.of("--drives", drivePins, "--watches", watchPins));
    }
  }

  private static Program firmware(Chip chip) {
    return new Program(Built.elf(chip), chip.controller, chip.channels);
  }

  /** Behind a pseudo-terminal, while time goes by. */
  public static ChipBench start(Chip chip, PinSide card, Path folder) {
    return start(firmware(chip), card, folder, true);
  }

  /** In step: time stands still but for {@link #go}. */
  public static ChipBench inStep(Chip chip, PinSide card, Path folder) {
    return start(firmware(chip), card, folder, false);
  }

  static ChipBench inStep(Program program, PinSide card, Path folder) {
    return start(program, card, folder, false);
  }

  private static ChipBench start(Program program, PinSide card, Path folder, boolean port) {
    try {
      return new ChipBench(program, card, folder, port);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** What the chip sent, and the cycle at which it had. */
  public record Sent(long cycle, byte[] bytes) {}

  /**
   * Puts bytes on the line and lets time pass to this cycle, or to the end of a frame that the chip
   * sends.
   */
  public Sent go(long cycle, byte[] bytes) {
    String hex = bytes.length == 0 ? "" : " " + HexFormat.of().formatHex(bytes);
    String[] words = ask("go " + cycle + hex).split(" ");
    byte[] sent = words.length < 3 ? new byte[0] : HexFormat.of().parseHex(words[2]);
    return new Sent(Long.parseLong(words[1]), sent);
  }

  /** What a host opens. */
  public Path port() {
    return port;
  }

  /** As fast as a real chip from now on, and no longer as fast as it can. */
  public void atRealPace() {
    ask("pace real");
  }

  /**
   * @param how {@code pin}, {@code power} or {@code brown-out}
   */
  public void reset(String how) {
    ask("reset " + how);
  }

  /** Sends the program round in a circle, as a fault of its own would. */
  public void hang() {
    ask("hang");
  }

  /** All changes of pins since the last time. */
  public List<Edge> edges() {
    Path file = folder.resolve("edges");
    ask("edges " + file);
    try {
      List<Edge> edges = new ArrayList<>();
      for (String line : Files.readAllLines(file)) {
        String[] parts = line.split(" ");
        edges.add(
            new Edge(
                Long.parseLong(parts[0]),
                parts[1].charAt(0),
                Long.parseUnsignedLong(parts[2], 16)));
      }
      return edges;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * {@code cycle}, {@code overruns}, {@code garbled}, {@code unsent}, {@code received}, {@code
   * sent}, {@code resets}, {@code stack}, {@code last}, the cycle of the last byte received, {@code
   * jtag}, 1 while pins are the JTAG port's, {@code collisions} of the SPI, {@code loads} of shift
   * registers since the reset, {@code longest}, cycles between two of them since the last call.
   */
  public Map<String, Long> stats() {
    String[] words = ask("stats").split(" ");
    Map<String, Long> stats = new HashMap<>();
    for (int i = 1; i < words.length; i += 2) {
      stats.put(words[i], Long.parseLong(words[i + 1]));
    }
    return stats;
  }

  @Override
  public void close() {
    process.destroyForcibly();
    try {
      thread.join(TimeUnit.SECONDS.toMillis(PATIENCE_S));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private synchronized String ask(String command) {
    say(command);
    return answer();
  }

  private String answer() {
    try {
      String answer = answers.poll(PATIENCE_S, TimeUnit.SECONDS);
      if (answer == null) {
        throw new AssertionError("the simulated chip does not answer");
      }
      return answer;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private void serve() {
    try {
      for (String line = fromChip.readLine(); line != null; line = fromChip.readLine()) {
        String[] words = line.split(" ");
        switch (words[0]) {
          case "drives" -> {
            pass(Long.parseLong(words[1]));
            card.drive(nowNs, bits(Long.parseUnsignedLong(words[2], 16)));
            reply();
          }
          case "due" -> {
            pass(Long.parseLong(words[1]));
            card.advance(nowNs);
            reply();
          }
          default -> answers.add(line);
        }
      }
    } catch (IOException gone) {
      answers.offer("gone: " + gone);
    }
  }

  /** A drive is told of a few cycles after it changed, when time may have gone on already. */
  private void pass(long cycle) {
    nowNs = Math.max(nowNs, Math.round(cycle * NS_PER_CYCLE));
  }

  private void reply() {
    long nextNs = card.nextNs();
    String next =
        nextNs == Long.MAX_VALUE
            ? "-"
            : Long.toString((long) Math.ceil(Math.max(nextNs, nowNs + 1) / NS_PER_CYCLE));
    long[] levels = card.watches().toLongArray();
    say("next " + next + " " + Long.toHexString(levels.length == 0 ? 0 : levels[0]));
  }

  private void say(String line) {
    try {
      synchronized (toChip) {
        toChip.write(line + "\n");
        toChip.flush();
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static BitSet bits(long levels) {
    return BitSet.valueOf(new long[] {levels});
  }
}
