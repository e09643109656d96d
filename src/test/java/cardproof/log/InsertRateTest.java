package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.Statement;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Vectors a second, beside what the same database does with one plain row a vector. A vector of
 * this bench is 14 rows: itself, and 13 moved lines.
 */
@Tag("bench")
final class InsertRateTest {
  private static final int VECTORS = 30_000;
  private static final int ROUNDS = 3;
  private static final int USUAL = 8;
  private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

  @TempDir Path directory;
  private int files;

  @Test
  void vectorsASecond() throws Exception {
    Random random = new Random(5);
    List<VectorRecord> records =
        IntStream.range(0, VECTORS).mapToObj(i -> SumCard.passed(i, random)).toList();
    List<VectorRecord> usual = records.stream().map(InsertRateTest::withUsualLines).toList();
    for (int round = 1; round <= ROUNDS; round++) {
      for (int group : new int[] {1, 100, 1000}) {
        double plain = plain(group);
        double vectors = vectors(records, group);
        System.out.printf(
            "round %d, %d a commit: %.0f vectors/s; %.0f plain rows/s; ratio %.2f, by rows %.2f%n",
            round, group, vectors, plain, vectors / plain, 14 * vectors / plain);
        System.out.printf(
            "  with %d moved lines a vector: %.0f vectors/s%n", USUAL, vectors(usual, group));
        // A bench of 20 ms steps needs 50 a second; this leaves room for a slow disk.
        assertThat(vectors).isGreaterThan(1000);
      }
    }
  }

  /** As many as move in a vector of the demonstration's sum plan on average. */
  private static VectorRecord withUsualLines(VectorRecord record) {
    return record.withMoved(record.moved().subList(0, USUAL));
  }

  private double vectors(List<VectorRecord> records, int group) {
    try (BenchLog log = BenchLog.open(next(), SumCard.CLOCK);
        RunWriter writer = log.begin(SumCard.start(UnitId.simulated("sum", "03")))) {
      writer.step(SumCard.step(0));
      long slowestNs = 0;
      long startCpuNs = THREADS.getCurrentThreadCpuTime();
      long startNs = System.nanoTime();
      for (int i = 0; i < VECTORS; i++) {
        long oneNs = System.nanoTime();
        writer.append(records.get(i));
        if (i % group == group - 1) {
          writer.commit();
        }
        slowestNs = Math.max(slowestNs, System.nanoTime() - oneNs);
      }
      double rate = VECTORS / seconds(startNs);
      double cpuUs = (THREADS.getCurrentThreadCpuTime() - startCpuNs) / 1e3 / VECTORS;
      System.out.printf(
          "slowest append and commit %.1f ms, %.0f us of processor a vector; ",
          slowestNs / 1e6, cpuUs);
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      return rate;
    }
  }

  private double plain(int group) throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + next());
        Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA journal_mode = WAL");
      statement.execute("PRAGMA synchronous = NORMAL");
      statement.execute("CREATE TABLE plain (number INTEGER PRIMARY KEY, record BLOB)");
      connection.setAutoCommit(false);
      byte[] record = new byte[64];
      try (PreparedStatement insert =
          connection.prepareStatement("INSERT INTO plain VALUES(?,?)")) {
        long startNs = System.nanoTime();
        for (int i = 0; i < VECTORS; i++) {
          insert.setInt(1, i);
          insert.setBytes(2, record);
          insert.executeUpdate();
          if (i % group == group - 1) {
            connection.commit();
          }
        }
        connection.commit();
        return VECTORS / seconds(startNs);
      }
    }
  }

  private Path next() {
    return directory.resolve("rate-" + files++ + ".bench");
  }

  private static double seconds(long startNs) {
    return (System.nanoTime() - startNs) / 1e9;
  }
}
