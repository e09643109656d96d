package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Room that a 38-line card takes, by SQLite's own dbstat table (sqlite.org/dbstat.html). */
final class RowSizeTest {
  private static final int VECTORS = 20_000;
  private static final int MOVED_A_VECTOR = SumCard.LINES - SumCard.FIRST_OUTPUT;

  @TempDir Path directory;

  @Test
  void aVectorAndAMovedLineAreSmall() {
    Db db = new LogFile(directory.resolve("sum.bench"), 1000, Schema.current()).openForWriting();
    try (BenchLog log = new BenchLog(db, SumCard.CLOCK, ProcessStamp.own());
        RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")))) {
      writer.step(SumCard.step(0));
      Random random = new Random(4);
      for (int i = 0; i < VECTORS; i++) {
        writer.append(SumCard.passed(i, random));
        if (i % 100 == 99) {
          writer.commit();
        }
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
      double vectorBytes = bytes(db, "vector") / VECTORS;
      double movedBytes = bytes(db, "moved") / VECTORS / MOVED_A_VECTOR;
      String found =
          String.format("%.1f bytes a vector, %.1f a moved line", vectorBytes, movedBytes);
      assertThat(vectorBytes).as(found).isBetween(50.0, 92.0);
      assertThat(movedBytes).as(found).isBetween(15.0, 28.0);
      assertThat(bytes(db, "moved_recent")).isLessThanOrEqualTo(4096);
    }
  }

  private static double bytes(Db db, String table) {
    return db.number("SELECT sum(pgsize) FROM dbstat WHERE name = ?", table);
  }
}
