package cardproof.files;

import cardproof.plan.Setting;
import cardproof.plan.Target;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * What a step sets buses to: {@code drive}, {@code release}, {@code pulse} and cells of a table.
 */
final class SettingReader {
  static final String RELEASED = "released";

  private final PlanNames names;
  private final Problems problems;
  private final Texts texts;

  SettingReader(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
    this.texts = new Texts(problems);
  }

  /** A map from bus to word. */
  List<Setting> map(Node node, String key, DrivenOnce once) {
    List<Setting> settings = new ArrayList<>();
    if (!(node instanceof Node.Mapping map) || map.entries().isEmpty()) {
      problems.error(
          node.at(),
          "'" + key + "' " + (node instanceof Node.Mapping ? "is empty" : "is " + node.described()),
          "buses with what they are set to, such as " + key + ": {A: 0x1F, CI: released}",
          "");
      return settings;
    }
    for (Node.Entry entry : map.entries()) {
      Optional<Target> target = names.driven(entry.key());
      Optional<Setting> setting = setting(entry.value(), entry.key().text(), target);
      if (target.isPresent() && once.take(target.get(), entry.key(), key)) {
        setting.ifPresent(settings::add);
      }
    }
    return settings;
  }

  /** One name or a list of names. */
  List<Setting> release(Node node, DrivenOnce once) {
    List<Setting> settings = new ArrayList<>();
    for (Node.Text name :
        names(node, "release", "an input, a shared bus or a line of one, to let go of")) {
      names
          .driven(name)
          .filter(target -> once.take(target, name, "release"))
          .ifPresent(target -> settings.add(target.release()));
    }
    return settings;
  }

  /** One name, or a list of at least one. */
  List<Node.Text> names(Node node, String key, String wanted) {
    List<Node> items = node instanceof Node.Listing list ? list.items() : List.of(node);
    if (items.isEmpty()) {
      problems.error(node.at(), "'" + key + "' is an empty list", wanted, "");
    }
    return items.stream().flatMap(item -> texts.text(item, key, wanted).stream()).toList();
  }

  /**
   * @param target empty where the name is not known; the word is looked at all the same
   */
  Optional<Setting> setting(Node node, String key, Optional<Target> target) {
    Optional<Node.Text> text = texts.text(node, key, "a number, or released");
    if (text.isEmpty()) {
      return Optional.empty();
    }
    if (text.get().text().strip().equals(RELEASED)) {
      return target.map(Target::release);
    }
    OptionalLong word = word(text.get(), target);
    return target.isPresent() && word.isPresent()
        ? Optional.of(target.get().to(word.getAsLong()))
        : Optional.empty();
  }

  private OptionalLong word(Node.Text text, Optional<Target> target) {
    Numbers numbers = names.numbers();
    String given = text.text().strip();
    boolean word = !given.isEmpty() && Character.isLetter(given.charAt(0));
    if (word && !names.setNames().has(given)) {
      problems.error(
          text.at(),
          text.described() + " is no number",
          "a number such as 12, 0x1F or 0b1010, or the word released",
          given.equals("x")
              ? "x means 'do not care' and belongs in what is expected"
              : RELEASED.startsWith(given.toLowerCase(java.util.Locale.ROOT))
                  ? "Did you mean 'released'?"
                  : ForeignNumber.next(given, names.setNames().hint(given)));
      return OptionalLong.empty();
    }
    if (target.isEmpty()) {
      numbers.known(text, "");
      return OptionalLong.empty();
    }
    return numbers.word(text, names.width(target.get()), names.of(target.get()));
  }
}
