package cardproof.run;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestCards;
import cardproof.plan.Generators;
import cardproof.plan.Plan;
import cardproof.plan.PlanSketch;
import cardproof.sim.SimSettings;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The same seed gives the same records, column by column and byte by byte. */
class SameSeedTest {
  @TempDir private Path folder;

  private static Plan plan() {
    Card card =
        TestCards.card()
            .input("D", 8)
            .input("LD", 1)
            .output("Q", 8, "R")
            .output("NQ", 8, "~R")
            .state("R", 8, "0", "LD ? D : R")
            .build();
    return PlanSketch.of(card)
        .step(s -> s.each("D", Generators.random(8, 40, 3)).pulse("LD", 1).still("NQ"))
        .plan();
  }

  private List<String> rows(String name, long seed, int slots) throws Exception {
    Path own = Files.createDirectory(folder.resolve(name));
    BenchRun run =
        BenchRun.of(plan(), own)
            .settings(s -> SimSettings.of(seed, "01").withSlots(slots))
            .faults("Q[3] stuck at supply");
    assertThat(run.go().records()).hasSize(120);
    List<String> rows = new ArrayList<>();
    try (Connection log = DriverManager.getConnection("jdbc:sqlite:" + run.file());
        Statement statement = log.createStatement()) {
      for (String table : List.of("vector", "moved")) {
        try (ResultSet result =
            statement.executeQuery("SELECT * FROM " + table + " ORDER BY 1, 2, 3, 4")) {
          while (result.next()) {
            rows.add(table + " " + row(result));
          }
        }
      }
    }
    return rows;
  }

  private static String row(ResultSet result) throws Exception {
    StringBuilder row = new StringBuilder();
    for (int column = 1; column <= result.getMetaData().getColumnCount(); column++) {
      Object value = result.getObject(column);
      row.append(value instanceof byte[] bytes ? HexFormat.of().formatHex(bytes) : value)
          .append('|');
    }
    return row.toString();
  }

  @Test
  void theSameSeedGivesTheSameRows() throws Exception {
    List<String> first = rows("first", 7, 16);
    assertThat(first.stream().filter(row -> row.startsWith("moved")).count()).isGreaterThan(200);
    assertThat(rows("second", 7, 16)).isEqualTo(first);
    assertThat(rows("other", 8, 16)).isNotEqualTo(first);
  }

  /** How far ahead steps are queued is nothing that the card could know of. */
  @Test
  void theNumberOfSlotsChangesNothing() throws Exception {
    assertThat(rows("two", 7, 2)).isEqualTo(rows("many", 7, 100));
  }
}
