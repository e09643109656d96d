package cardproof.cli;

import cardproof.files.draft.CardTopic;
import java.util.List;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/**
 * One option for each topic of a card, each of which may be given several times: a topic's word
 * after two dashes, and what was said behind it. Of a topic that takes one answer the last holds.
 */
final class CardOptions {
  private CardOptions() {}

  static void addTo(CommandSpec spec) {
    for (CardTopic topic : CardTopic.values()) {
      spec.addOption(
          OptionSpec.builder(name(topic))
              .paramLabel(label(topic))
              .description(about(topic))
              .type(List.class)
              .auxiliaryTypes(String.class)
              .arity("1")
              .build());
    }
  }

  /** What was said of a topic on the command line, in order. */
  static List<String> given(CommandSpec spec, CardTopic topic) {
    List<String> given = spec.findOption(name(topic)).getValue();
    return given == null ? List.of() : given;
  }

  /** {@code --unseen-stages}. */
  static String name(CardTopic topic) {
    return "--" + topic.word();
  }

  private static String label(CardTopic topic) {
    return switch (topic) {
      case NAME -> "NAME";
      case TITLE -> "TEXT";
      case INPUT, OUTPUT, SHARED -> "BUS";
      case STATE -> "STATE";
      case NEXT, BEHAVIOUR -> "RULE";
      case VOLTAGE -> "V";
      case LIMIT -> "A";
      case UNSEEN_STAGES -> "N";
      case OPERATE, RELEASE, BOUNCE, SETTLE -> "TIME";
    };
  }

  private static String about(CardTopic topic) {
    String standard = topic.standard().isEmpty() ? "" : " (default: " + topic.standard() + ")";
    return standard.isEmpty() ? meaning(topic) : meaning(topic) + standard;
  }

  private static String meaning(CardTopic topic) {
    return switch (topic) {
      case NAME -> "the card's name";
      case TITLE -> "what it is, in one line";
      case INPUT -> "lines driven into the card";
      case OUTPUT -> "lines that the card drives";
      case SHARED -> "lines that both may drive";
      case STATE -> "what the card keeps: NAME[:WIDTH][=POWER-ON], such as R:12 or R:12=0";
      case NEXT -> "next value of a state, such as 'R = LD ? D : R'";
      case BEHAVIOUR -> "what the card puts on an output, such as 'S = A + B'";
      case VOLTAGE -> "of the supply";
      case LIMIT -> "most it should draw";
      case OPERATE, RELEASE, BOUNCE -> "of a relay";
      case UNSEEN_STAGES -> "most relays in series with no watched line between them";
      case SETTLE -> "latest change of any output (default: from the relays)";
    };
  }
}
