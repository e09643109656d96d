package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A log that cannot be used stops a run before anything is driven, and says what to do. */
class LogErrorsTest {
  @TempDir private Path folder;
  private Path plan;
  private Path log;

  @BeforeEach
  void aRunHasBeenMade() {
    plan = Cli.demonstration(folder, "sum");
    log = plan.resolveSibling("bench-log.sqlite");
  }

  private static void sql(Path file, String statement) throws SQLException {
    try (Connection database = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement sql = database.createStatement()) {
      sql.execute(statement);
    }
  }

  private void refused(String said) {
    Cli cli = Cli.run("run", plan, "--only", "carry in alone");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.out()).isEmpty();
    assertThat(cli.err()).isEqualTo(log + ": " + said + "\n");
  }

  @Test
  void aLogOfANewerProgram() throws Exception {
    Cli.run("run", plan, "--only", "carry in alone");
    sql(log, "PRAGMA user_version = 99");
    refused(
        "this bench log has schema version 99; wanted at most 5. It was written by a later version"
            + " of this program; use that one.");
  }

  @Test
  void aDatabaseOfSomethingElse() throws Exception {
    sql(log, "CREATE TABLE recipe (name TEXT)");
    refused(
        "this is a database of some other program (application id 0x00000000); wanted a bench log"
            + " (0x43505246). Give the name of a bench log, or a new one; this file was not changed.");
  }

  @Test
  void aFileThatIsNoDatabase() throws IOException {
    Files.writeString(log, "dear diary, ".repeat(500));
    refused(
        "this is not a database; wanted a bench log. Give the name of a bench log, or a new one.");
  }

  @Test
  void aLogThatSomebodyElseIsWriting() throws Exception {
    Cli.run("run", plan, "--only", "carry in alone");
    try (Connection other = DriverManager.getConnection("jdbc:sqlite:" + log);
        Statement sql = other.createStatement()) {
      sql.execute("BEGIN IMMEDIATE");
      Cli cli = Cli.run("run", plan, "--only", "carry in alone");
      assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
      assertThat(cli.err()).startsWith(log + ": ").contains("locked").doesNotContain("Exception");
    }
  }

  @Test
  void aFolderThatIsMissing() {
    Cli cli = Cli.run("run", plan, "--log", folder.resolve("nowhere").resolve("log.sqlite"));
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("nowhere");
  }
}
