package cardproof.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.Model.UsageMessageSpec;

/** One command as a manual page, from the definitions that its {@code --help} is made of. */
final class ManualPage {
  private final CommandSpec command;
  private final UsageMessageSpec usage;
  private final Roff page = new Roff();

  ManualPage(CommandSpec command) {
    this.command = command;
    this.usage = command.usageMessage();
  }

  /** The page in troff with the man macros. */
  String text() {
    page.title(hyphenated(command).toUpperCase(Locale.ROOT), Version.text(), "Cardproof Manual");
    String description = plain(String.join(" ", usage.description()));
    page.heading("NAME");
    page.text(hyphenated(command) + " - " + firstSmall(withoutStop(description)));
    page.heading("SYNOPSIS");
    page.text(synopsis());
    page.heading("DESCRIPTION");
    page.paragraph(description);
    arguments();
    options();
    commands();
    exitStatus();
    examples();
    seeAlso();
    return page.toString();
  }

  private String synopsis() {
    Help help = new Help(command, Help.defaultColorScheme(Ansi.OFF));
    return help.synopsis(0).strip().replaceAll("\\s+", " ");
  }

  private void arguments() {
    List<PositionalParamSpec> arguments = command.positionalParameters();
    if (arguments.stream().anyMatch(argument -> !argument.hidden())) {
      page.heading("ARGUMENTS");
      for (PositionalParamSpec argument : arguments) {
        if (!argument.hidden()) {
          page.tagged(argument.paramLabel(), description(argument));
        }
      }
    }
  }

  private void options() {
    List<OptionSpec> options = new ArrayList<>(command.options());
    options.removeIf(OptionSpec::hidden);
    options.sort(Comparator.comparing(OptionSpec::longestName));
    page.heading("OPTIONS");
    for (OptionSpec option : options) {
      String value = option.arity().max() == 0 ? "" : " " + option.paramLabel();
      page.tagged(String.join(", ", option.names()) + value, description(option));
    }
  }

  private void commands() {
    if (!command.subcommands().isEmpty()) {
      page.heading("COMMANDS");
      command
          .subcommands()
          .forEach((name, line) -> page.tagged(name, plain(descriptionOf(line.getCommandSpec()))));
    }
  }

  private void exitStatus() {
    page.heading("EXIT STATUS");
    Map<String, String> codes = command.root().usageMessage().exitCodeList();
    codes.forEach((code, meaning) -> page.tagged(code, plain(meaning)));
  }

  private void examples() {
    if (usage.footer().length > 0) {
      page.heading("EXAMPLES");
      for (String example : usage.footer()) {
        page.typed(plain(example));
      }
    }
  }

  private void seeAlso() {
    List<String> others = new ArrayList<>();
    CommandSpec root = command.root();
    if (command != root) {
      others.add(hyphenated(root) + "(1)");
    }
    for (CommandLine below :
        command == root ? List.<CommandLine>of() : command.subcommands().values()) {
      others.add(hyphenated(below.getCommandSpec()) + "(1)");
    }
    for (CommandLine other : root.subcommands().values()) {
      if (other.getCommandSpec() != command) {
        others.add(hyphenated(other.getCommandSpec()) + "(1)");
      }
    }
    page.heading("SEE ALSO");
    page.text(String.join(", ", others));
  }

  private static String description(ArgSpec argument) {
    return plain(String.join(" ", argument.description()))
        .replace("${DEFAULT-VALUE}", String.valueOf(argument.defaultValueString()));
  }

  private static String descriptionOf(CommandSpec other) {
    return String.join(" ", other.usageMessage().description());
  }

  /** Help texts are format strings in which {@code %n} and {@code %%} may stand. */
  private static String plain(String help) {
    return help.replace("%n", "\n").replace("%%", "%");
  }

  private static String withoutStop(String sentence) {
    return sentence.endsWith(".") ? sentence.substring(0, sentence.length() - 1) : sentence;
  }

  private static String firstSmall(String sentence) {
    return sentence.substring(0, 1).toLowerCase(Locale.ROOT) + sentence.substring(1);
  }

  private static String hyphenated(CommandSpec command) {
    return command.qualifiedName("-");
  }
}
