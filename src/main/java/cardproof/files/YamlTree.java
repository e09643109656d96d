package cardproof.files;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.yaml.snakeyaml.DumperOptions;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.composer.Composer;
import org.yaml.snakeyaml.constructor.SafeConstructor;
import org.yaml.snakeyaml.error.MarkedYAMLException;
import org.yaml.snakeyaml.error.YAMLException;
import org.yaml.snakeyaml.events.Event;
import org.yaml.snakeyaml.parser.Parser;
import org.yaml.snakeyaml.representer.Representer;
import org.yaml.snakeyaml.resolver.Resolver;

/** From a file's text to its tree. */
final class YamlTree {
  /** Sees no number, truth value, date or merge key in a text: every scalar stays one. */
  private static final class TextOnly extends Resolver {
    @Override
    protected void addImplicitResolvers() {
      // none, and that is the point
    }
  }

  private YamlTree() {}

  /** The tree, or empty where the text has none; what is wrong with it is in {@code problems}. */
  static Optional<Node> of(SourceText source, Problems problems) {
    Screening screening = new Screening(source, problems);
    try {
      LoaderOptions loading = loading();
      List<Event> events = new ArrayList<>();
      for (Event event : yaml(loading).parse(new StringReader(source.text()))) {
        if (!screening.takes(event)) {
          return Optional.empty();
        }
        events.add(event);
      }
      org.yaml.snakeyaml.nodes.Node root =
          new Composer(new Replay(events), new TextOnly(), loading).getSingleNode();
      if (root == null) {
        problems.fileError(
            source.name(),
            "the file is empty, or holds nothing but comments",
            "a card, a plan or a fixture profile",
            "");
        return Optional.empty();
      }
      return new TreeBuilder(source, problems).build(root);
    } catch (MarkedYAMLException unreadable) {
      new SyntaxMessages(source, problems).report(unreadable);
      return Optional.empty();
    } catch (YAMLException withoutPlace) {
      // the one way known to get here is a second quoted text behind one that ran over lines
      if (new SyntaxMessages(source, problems).openQuote(Integer.MAX_VALUE)) {
        return Optional.empty();
      }
      problems.error(
          screening.reached(),
          "a value behind this place ends, and something else follows it",
          "one value behind each key",
          "Look for a quote that is missing, or one too many");
      return Optional.empty();
    }
  }

  /** Events that were read already, so that no text is read twice. */
  private static final class Replay implements Parser {
    private final List<Event> events;
    private int next;

    Replay(List<Event> events) {
      this.events = events;
    }

    @Override
    public boolean checkEvent(Event.ID choice) {
      return next < events.size() && events.get(next).is(choice);
    }

    @Override
    public Event peekEvent() {
      return events.get(next);
    }

    @Override
    public Event getEvent() {
      return events.get(next++);
    }
  }

  private static LoaderOptions loading() {
    LoaderOptions loading = new LoaderOptions();
    // the limits are Screening's, which says them in our words
    loading.setNestingDepthLimit(Screening.DEEPEST + 1);
    loading.setMaxAliasesForCollections(Screening.MOST_ALIASES + 1);
    loading.setCodePointLimit(SourceReader.MOST_BYTES + 1);
    return loading;
  }

  private static Yaml yaml(LoaderOptions loading) {
    DumperOptions dumping = new DumperOptions();
    return new Yaml(
        new SafeConstructor(loading), new Representer(dumping), dumping, loading, new TextOnly());
  }
}
