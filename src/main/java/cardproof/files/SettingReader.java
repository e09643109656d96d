package cardproof.files;

import cardproof.card.Bus;
import cardproof.plan.Setting;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
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
      OptionalInt bus = names.driven(entry.key());
      Optional<Setting> setting = setting(entry.value(), entry.key().text(), bus);
      if (bus.isPresent() && once.take(bus.getAsInt(), entry.key(), key)) {
        setting.ifPresent(settings::add);
      }
    }
    return settings;
  }

  /** One name or a list of names. */
  List<Setting> release(Node node, DrivenOnce once) {
    List<Setting> settings = new ArrayList<>();
    for (Node.Text name : names(node, "release", "an input or shared bus to let go of")) {
      OptionalInt bus = names.driven(name);
      if (bus.isPresent() && once.take(bus.getAsInt(), name, "release")) {
        settings.add(Setting.release(bus.getAsInt()));
      }
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
   * @param bus empty where the name is not known; the word is looked at all the same
   */
  Optional<Setting> setting(Node node, String key, OptionalInt bus) {
    Optional<Node.Text> text = texts.text(node, key, "a number, or released");
    if (text.isEmpty()) {
      return Optional.empty();
    }
    if (text.get().text().strip().equals(RELEASED)) {
      return bus.isPresent() ? Optional.of(Setting.release(bus.getAsInt())) : Optional.empty();
    }
    OptionalLong word = word(text.get(), bus);
    return bus.isPresent() && word.isPresent()
        ? Optional.of(Setting.to(bus.getAsInt(), word.getAsLong()))
        : Optional.empty();
  }

  private OptionalLong word(Node.Text text, OptionalInt bus) {
    Numbers numbers = new Numbers(problems);
    String given = text.text().strip();
    if (!given.isEmpty() && Character.isLetter(given.charAt(0))) {
      problems.error(
          text.at(),
          text.described() + " is no number",
          "a number such as 12, 0x1F or 0b1010, or the word released",
          given.equals("x")
              ? "x means 'do not care' and belongs in what is expected"
              : RELEASED.startsWith(given.toLowerCase(java.util.Locale.ROOT))
                  ? "Did you mean 'released'?"
                  : "");
      return OptionalLong.empty();
    }
    if (bus.isEmpty()) {
      numbers.known(text, "");
      return OptionalLong.empty();
    }
    Bus to = names.bus(bus.getAsInt());
    return numbers.word(text, to.width(), Numbers.of(to));
  }
}
