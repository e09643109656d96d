package cardproof.timing;

import cardproof.log.BenchLog;
import java.nio.file.Path;

/** A process of its own, so that its memory can be limited: prints the settle table of run 1. */
final class SummariseInLittleMemory {
  private SummariseInLittleMemory() {}

  public static void main(String[] args) {
    try (BenchLog log = BenchLog.openForReading(Path.of(args[0]))) {
      long startNs = System.nanoTime();
      SettleTable table = SettleTable.of(log, 1);
      for (SettleRow row : table.rows()) {
        System.out.println(row.times().orElseThrow().n() + row.censored());
      }
      System.err.printf("summarised in %.1f s%n", (System.nanoTime() - startNs) / 1e9);
    }
  }
}
