package cardproof.cli;

import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import picocli.CommandLine;

/** Every command's name for completion, those below another one too. */
final class CommandNames implements Iterable<String> {
  /** Read by the library of command lines, which makes one by itself. */
  CommandNames() {}

  @Override
  public Iterator<String> iterator() {
    List<String> names = new ArrayList<>();
    Commands.all().getSubcommands().forEach((name, line) -> add(names, name, line));
    return names.iterator();
  }

  private static void add(List<String> names, String name, CommandLine line) {
    if (!names.contains(name)) {
      names.add(name);
    }
    line.getSubcommands().forEach((inner, below) -> add(names, inner, below));
  }
}
