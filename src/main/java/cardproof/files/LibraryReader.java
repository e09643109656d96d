package cardproof.files;

import cardproof.card.Card;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Gathers {@code include}, {@code set} and {@code procedures} of a plan and of what it includes.
 */
final class LibraryReader {
  static final List<String> FILE_KEYS = List.of("procedures-of", "include", "set", "procedures");
  private static final int MOST_FILES = 50;
  private static final String HERE =
      "a file of procedures, named from where the file lies that includes it";
  private static final String WANTED = "a file of procedures, such as ../shared/registers.yaml";

  private final Problems problems;
  private final PlanWords words;
  private final Library library;
  private final List<Path> sources;
  private final List<Path> open = new ArrayList<>();
  private final Set<Path> done = new HashSet<>();

  /**
   * @param sources gets every file that is read
   */
  LibraryReader(Path plan, Optional<Card> card, List<Path> sources, Problems problems) {
    this.problems = problems;
    this.words = new PlanWords(card, problems);
    this.library = new Library(problems);
    this.sources = sources;
    open.add(plan);
  }

  /** What the plan's own fields bring, and all that they include. */
  Library read(Fields plan) {
    take(plan);
    return library;
  }

  private void take(Fields fields) {
    fields.get("include").ifPresent(this::include);
    fields.get("set").ifPresent(this::set);
    fields.get("procedures").ifPresent(this::procedures);
  }

  private void set(Node node) {
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(), node.saidOf("set"), "a map from names to numbers, such as NEAP: 412", "");
      return;
    }
    for (Node.Entry entry : map.entries()) {
      if (words.claimSet(entry.key())) {
        library.setNames().set(entry.key(), entry.value(), problems);
      }
    }
  }

  private void procedures(Node node) {
    if (!(node instanceof Node.Mapping map)) {
      problems.error(
          node.at(),
          node.saidOf("procedures"),
          "a map of procedures, each with 'arguments' and 'steps'",
          "");
      return;
    }
    ProcedureReader reader = new ProcedureReader(words, problems);
    for (Node.Entry entry : map.entries()) {
      Optional<Procedure> procedure = reader.read(entry);
      procedure.ifPresent(library::add);
      if (procedure.isEmpty()) {
        library.addBroken(entry.key().text());
      }
    }
  }

  private void include(Node node) {
    List<Node> items = node instanceof Node.Listing list ? list.items() : List.of(node);
    if (items.isEmpty()) {
      problems.error(node.at(), "'include' is an empty list", WANTED, "");
    }
    for (Node item : items) {
      new Texts(problems).text(item, "include", WANTED).ifPresent(this::includeOne);
    }
  }

  private void includeOne(Node.Text name) {
    Optional<Path> found = OtherFile.named(name, open.get(open.size() - 1), HERE, WANTED, problems);
    if (found.isEmpty()) {
      return;
    }
    Path file = found.get();
    Path own = OtherFile.identity(file);
    List<Path> chain = open.stream().map(OtherFile::identity).toList();
    if (chain.contains(own)) {
      List<String> circle =
          open.subList(chain.indexOf(own), open.size()).stream()
              .map(Path::toString)
              .collect(Collectors.toCollection(ArrayList::new));
      circle.add(file.toString());
      problems.error(
          name.at(),
          "files include one another in a circle: " + String.join(" -> ", circle),
          "files that come to an end",
          "Take one of the includes out");
      return;
    }
    if (!done.add(own)) {
      return;
    }
    if (done.size() > MOST_FILES) {
      problems.error(
          name.at(),
          "more than " + MOST_FILES + " files are included",
          "at most " + MOST_FILES,
          "Put the procedures of several files into one");
      return;
    }
    read(file);
  }

  private void read(Path file) {
    sources.add(file);
    open.add(file);
    SourceReader.read(file, problems)
        .flatMap(source -> YamlTree.of(source, problems))
        .flatMap(root -> Kind.PROCEDURES.check(root, problems))
        .flatMap(root -> Fields.of(root, "the file of procedures", FILE_KEYS, problems))
        .ifPresent(
            fields -> {
              fields
                  .require("procedures-of", "procedures-of: the registers")
                  .ifPresent(node -> new Texts(problems).title(node, "procedures-of"));
              take(fields);
            });
    open.remove(open.size() - 1);
  }
}
