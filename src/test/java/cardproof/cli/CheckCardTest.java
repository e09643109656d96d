package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code check} with a card in place of a plan. */
class CheckCardTest {
  private static final Path RESOURCES = Path.of("src", "test", "resources", "cli");

  @TempDir private Path folder;

  @Test
  void ofACardWithoutWiringItSaysSo() {
    Cli cli = Cli.run("check", RESOURCES.resolve("unset-card.yaml"));
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out()).contains("Its wiring is not known: the card has no 'wiring'.");
  }

  @Test
  void whatGoesWithAPlanIsRefused() {
    Cli cli = Cli.run("check", RESOURCES.resolve("ripple-card.yaml"), "--list");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).contains("go with a plan");
  }

  @Test
  void aPlanOfACardThatCannotWorkIsNoBetter() throws IOException {
    Path plan = folder.resolve("plan.yaml");
    String card = RESOURCES.resolve("faulty-card.yaml").toAbsolutePath().toString();
    Files.writeString(
        plan, Files.readString(RESOURCES.resolve("ripple.yaml")).replace("ripple-card.yaml", card));
    Cli cli = Cli.run("check", plan);
    assertThat(cli.exitCode()).as(cli.err()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.out()).contains("found wrong with it: ").contains("errors and ");
  }

  @Test
  void figuresWithALowerFloorThanTheWiringsAreRefused() throws IOException {
    Cli cli = Cli.run("check", withRelays("{unseen-stages: 1}"));
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .contains("'relays' gives a quiet floor of 32.5 ms, and the wiring needs 65 ms: BIT[0].A -")
        .contains("BIT[0].A - BIT[1].C may move in turn with no watched line changing between");
    assertThat(Cli.run("check", withRelays("{unseen-stages: 3}")).exitCode()).isZero();
    assertThat(Cli.run("check", withRelays("{operate: 12 ms, release: 18 ms}")).exitCode())
        .isZero();
  }

  private Path withRelays(String relays) throws IOException {
    String text = Files.readString(RESOURCES.resolve("ripple-card.yaml"));
    String library = Path.of("vectors", "relays.yaml").toAbsolutePath().toString();
    Path card = folder.resolve("card.yaml");
    Files.writeString(
        card,
        text.replace("../../../../vectors/relays.yaml", library)
            .replace("\nwiring:", "\nrelays: " + relays + "\n\nwiring:"));
    return card;
  }
}
