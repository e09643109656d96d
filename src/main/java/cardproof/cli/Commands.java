package cardproof.cli;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine;

/**
 * The commands there are. A command line is given only the one it names, because reading all of
 * them takes longer than starting Java does; help, and a name that is not known, get them all.
 */
final class Commands {
  private static final Map<String, Supplier<Callable<Integer>>> ALL = new LinkedHashMap<>();

  static {
    ALL.put("check", CheckCommand::new);
    ALL.put("run", RunCommand::new);
    ALL.put("log", LogCommand::new);
    ALL.put("settle", SettleCommand::new);
    ALL.put("compare", CompareCommand::new);
    ALL.put("pace", PaceCommand::new);
    ALL.put("drift", DriftCommand::new);
    ALL.put("ports", PortsCommand::new);
    ALL.put("selftest", SelftestCommand::new);
    ALL.put("completion", CompletionCommand::new);
    ALL.put("manual", ManualCommand::new);
    ALL.put("netlist", NetlistCommand::new);
    ALL.put("schema", SchemaCommand::new);
    ALL.put("new", NewCommand::new);
  }

  private Commands() {}

  static CommandLine commandLine(String... args) {
    String first = args.length == 0 ? "" : args[0];
    if (ALL.containsKey(first)) {
      return new CommandLine(new RootCommand()).addSubcommand(ALL.get(first).get());
    }
    return all();
  }

  /** The program with every command it has. */
  static CommandLine all() {
    CommandLine root = new CommandLine(new RootCommand());
    ALL.values().forEach(command -> root.addSubcommand(command.get()));
    return root;
  }
}
