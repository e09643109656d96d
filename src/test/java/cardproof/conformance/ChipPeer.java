package cardproof.conformance;

import cardproof.firmware.Chip;
import cardproof.firmware.ChipBench;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

/** The firmware on a simulated chip, with the card at its pins, in the chip's own time. */
final class ChipPeer implements Peer {
  private static final double NS_PER_CYCLE = 62.5;
  private static final int WATCHDOG = 4;

  /** Longer than a chip takes from a reset to its first byte. */
  private static final long BOOT_NS = 100_000_000;

  /** Longer than the longest period that the watchdog has (data sheet of the ATmega328P: 8 s). */
  private static final int WATCHDOG_TRIES = 9;

  private static final Map<Integer, String> CAUSES =
      new TreeMap<>(Map.of(1, "power", 2, "pin", 3, "brown-out"));

  /** One of these chips. */
  record Maker(String name, Chip chip) implements PeerMaker {
    @Override
    public int drives() {
      return chip.drives();
    }

    @Override
    public int watches() {
      return chip.watches();
    }

    @Override
    public Peer start(CardScript card) {
      try {
        Path folder = Files.createTempDirectory("chip");
        return new ChipPeer(ChipBench.inStep(chip, new PlayedCard(card), folder), folder);
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  private final ChipBench bench;
  private final Path folder;
  private final List<Switch> switches = new ArrayList<>();
  private byte[] toChip = {};
  private long nowNs;

  private ChipPeer(ChipBench bench, Path folder) {
    this.bench = bench;
    this.folder = folder;
    boot();
  }

  @Override
  public Set<Offer> offers() {
    return EnumSet.of(Offer.TRUE_DRIVES, Offer.RESET, Offer.EXACT_TIME);
  }

  @Override
  public Set<Integer> resetCauses() {
    Set<Integer> causes = new TreeSet<>(CAUSES.keySet());
    causes.add(WATCHDOG);
    return causes;
  }

  @Override
  public void send(byte[] line) {
    toChip = new Bytes().raw(toChip).raw(line).done();
  }

  /** Once at least, so that what was said goes on the line. */
  @Override
  public byte[] receive(long untilNs) {
    byte[] came = go(untilNs);
    while (came.length == 0 && nowNs < untilNs) {
      came = go(untilNs);
    }
    return came;
  }

  private byte[] go(long untilNs) {
    long cycle = (long) Math.ceil(Math.max(untilNs, nowNs) / NS_PER_CYCLE);
    ChipBench.Sent sent = bench.go(cycle, toChip);
    toChip = new byte[0];
    nowNs = Math.max(nowNs, Math.round(sent.cycle() * NS_PER_CYCLE));
    return sent.bytes();
  }

  private void boot() {
    long endNs = nowNs + BOOT_NS;
    while (nowNs < endNs) {
      go(endNs);
    }
  }

  @Override
  public long nowNs() {
    return nowNs;
  }

  @Override
  public List<Switch> switches() {
    for (ChipBench.Edge edge : bench.edges()) {
      if (edge.kind() != 'w') {
        BitSet drives = BitSet.valueOf(new long[] {edge.levels()});
        switches.add(new Switch(Math.round(edge.cycle() * NS_PER_CYCLE), drives));
      }
    }
    return switches;
  }

  @Override
  public void reset(int cause) {
    if (cause == WATCHDOG) {
      hang();
    } else {
      bench.reset(CAUSES.get(cause));
    }
    boot();
  }

  private void hang() {
    long before = bench.stats().get("resets");
    bench.hang();
    for (int i = 0; i < WATCHDOG_TRIES && bench.stats().get("resets") == before; i++) {
      go(nowNs + 1_000_000_000L);
    }
  }

  @Override
  public void close() {
    bench.close();
    try (Stream<Path> left = Files.walk(folder)) {
      for (Path file : left.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(file);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
