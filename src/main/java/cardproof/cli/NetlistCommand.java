package cardproof.cli;

import cardproof.card.Card;
import cardproof.files.CardFile;
import cardproof.files.Loaded;
import cardproof.files.NetlistFile;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Prints what is soldered on a card as a flat netlist. */
@Command(
    name = "netlist",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Prints the wiring of a card as a table of reference, pin and net (CSV), as schematic editors"
          + " export and read it.",
      "With --wiring it prints what a card file says to read such a table back."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof netlist vectors/sum/card.yaml > sum.csv",
      "  cardproof netlist vectors/sum/card.yaml --wiring sum.csv"
    })
final class NetlistCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Parameters(paramLabel = "CARD", description = "card file with wiring")
  private Path file;

  @Option(
      names = "--wiring",
      paramLabel = "CSV",
      description = "the 'wiring' of a card file that names this table, instead of the table")
  private String netlist;

  @Option(
      names = "--relay-types",
      paramLabel = "FILE",
      defaultValue = "../relays.yaml",
      description = "with --wiring: the relay library that it names (${DEFAULT-VALUE})")
  private String relayTypes;

  @Override
  public Integer call() throws IOException {
    Screen screen = Screen.of(spec.commandLine());
    Loaded<Card> loaded = CardFile.read(file);
    loaded.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    Card card = loaded.value();
    if (card.wiring().isEmpty()) {
      throw new RefusedException(
          Problem.at(
              card.at(),
              "card " + card.name() + " says nothing of its wiring",
              "'wiring', with the parts that are soldered",
              ""));
    }
    if (netlist == null) {
      NetlistFile.write(card, screen.out());
    } else {
      screen.out().print(NetlistFile.wiringText(card, relayTypes, netlist));
    }
    screen.out().flush();
    return ExitCode.PASSED;
  }
}
