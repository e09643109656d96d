package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class NetlistCommandTest {
  private static final Path SUM = Path.of("vectors", "sum", "card.yaml");

  @TempDir private Path folder;

  @Test
  void printsATableThatRunsAsTheCardDid() throws Exception {
    Path plan = Cli.demonstration(folder, "sum");
    Cli table = Cli.run("netlist", SUM);
    assertThat(table.exitCode()).isZero();
    assertThat(table.out()).startsWith("reference,pin,net\r\n").contains("BIT[3].C,com1,S[3]\r\n");
    Files.writeString(plan.resolveSibling("sum.csv"), table.out());
    String card = Files.readString(SUM);
    String wiring = Cli.run("netlist", SUM, "--wiring", "sum.csv").out();
    Files.writeString(
        plan.resolveSibling("card.yaml"),
        card.substring(0, card.indexOf("\n# Three relays")) + "\n" + wiring);
    Cli run = Cli.run("run", plan);
    assertThat(run.exitCode()).as(run.err()).isZero();
    assertThat(settleTable(run))
        .isEqualTo(settleTable(Cli.run("run", demonstration(), "--log", log())));
  }

  @Test
  void aCardWithoutWiringIsRefused() {
    Cli cli = Cli.run("netlist", Path.of("src/test/resources/cli/unset-card.yaml"));
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("says nothing of its wiring");
  }

  private static Path demonstration() {
    return Path.of("vectors", "sum", "bring-up.yaml");
  }

  private Path log() {
    return folder.resolve("log.sqlite");
  }

  private static String settleTable(Cli run) {
    return run.out().substring(run.out().indexOf("settle times"), run.out().indexOf("longest"));
  }
}
