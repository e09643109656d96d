package cardproof.cli;

import cardproof.files.draft.CardDraft;
import cardproof.files.draft.CardTopic;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** The questions from which a card's file is written; what options have answered is not asked. */
final class CardQuestions {
  private static final String NONE = "none";

  private static final Pattern NUMBERED_OR_FIRST = Pattern.compile("([A-Za-z_]+)(\\d+)");
  private static final Pattern NUMBERED = Pattern.compile("([A-Za-z_]+)([2-9]|[1-9]\\d)");

  private final Questions questions;

  CardQuestions(Questions questions) {
    this.questions = questions;
  }

  /** A draft whose text is complete. */
  CardDraft ask(CardDraft given) {
    CardDraft draft = one(given, CardTopic.NAME, "Name of the card, such as sum", "");
    draft = one(draft, CardTopic.TITLE, "What it is, in one line", draft.title());
    draft = lines(draft);
    draft = many(draft, CardTopic.STATE, "What the card keeps, such as R:12 or R:12=0, or nothing");
    draft = expressions(draft);
    draft = one(draft, CardTopic.VOLTAGE, "Supply voltage", CardTopic.VOLTAGE.standard());
    draft = one(draft, CardTopic.LIMIT, "The most it should draw", CardTopic.LIMIT.standard());
    draft = one(draft, CardTopic.OPERATE, "Operate time of a relay", CardTopic.OPERATE.standard());
    draft = one(draft, CardTopic.RELEASE, "Release time of a relay", CardTopic.RELEASE.standard());
    draft = one(draft, CardTopic.BOUNCE, "Bounce time of a relay", CardTopic.BOUNCE.standard());
    draft =
        one(
            draft,
            CardTopic.UNSEEN_STAGES,
            "Most relays in series with no watched line between",
            CardTopic.UNSEEN_STAGES.standard());
    return one(draft, CardTopic.SETTLE, "Latest change of any output", draft.settle());
  }

  private CardDraft one(CardDraft draft, CardTopic topic, String question, String standard) {
    return draft.has(topic)
        ? draft
        : questions.ask(question, standard, answer -> draft.with(topic, answer));
  }

  /** Until there is something to drive and something to watch. */
  private CardDraft lines(CardDraft given) {
    CardDraft draft = given;
    while (true) {
      draft = many(draft, CardTopic.INPUT, "Inputs, such as A:12 or CI or D:8@J1.1-8");
      draft = many(draft, CardTopic.OUTPUT, "Outputs");
      draft = many(draft, CardTopic.SHARED, "Buses that card and fixture both drive, or nothing");
      try {
        draft.text();
        return draft;
      } catch (RefusedException incomplete) {
        incomplete.problems().forEach(problem -> questions.say("  " + problem));
      }
    }
  }

  /**
   * Several in one answer, with blanks between, or one after another; {@code -NAME} takes one back,
   * an empty answer ends them.
   */
  private CardDraft many(CardDraft given, CardTopic topic, String question) {
    List<CardDraft> drafts = new ArrayList<>(List.of(given));
    boolean more = true;
    while (more) {
      CardDraft draft = drafts.get(drafts.size() - 1);
      boolean any = draft.has(topic);
      more =
          questions.ask(
              any ? "  more, or nothing" : question,
              "",
              answer -> {
                CardDraft next = draft;
                for (String word : words(answer)) {
                  next = word.startsWith("-") ? next.without(topic, word) : next.with(topic, word);
                }
                note(words(answer));
                drafts.add(next);
                return !answer.isEmpty();
              });
    }
    return drafts.get(drafts.size() - 1);
  }

  /** With blanks or commas between them. */
  private static List<String> words(String answer) {
    return Stream.of(answer.split("\\s+"))
        .map(word -> word.replaceFirst(",$", ""))
        .filter(word -> !word.isEmpty())
        .toList();
  }

  /** {@code A4} may be meant for four lines; L1 L2 L3 are what they look like. */
  private void note(List<String> words) {
    for (String word : words) {
      Matcher name = NUMBERED.matcher(word);
      if (name.matches() && words.stream().noneMatch(w -> isAnother(w, word, name.group(1)))) {
        questions.say(
            String.format(
                "  '%s' is one line of that name; for %s lines write -%s %s:%s.",
                word, name.group(2), word, name.group(1), name.group(2)));
      }
    }
  }

  private static boolean isAnother(String word, String than, String stem) {
    Matcher name = NUMBERED_OR_FIRST.matcher(word);
    return !word.equals(than) && name.matches() && name.group(1).equals(stem);
  }

  private CardDraft expressions(CardDraft given) {
    CardDraft draft = given;
    for (String state : draft.names(CardTopic.STATE)) {
      draft = expression(draft, CardTopic.NEXT, state, "Next value of " + state, state);
    }
    List<String> watched = new ArrayList<>(draft.names(CardTopic.OUTPUT));
    watched.addAll(draft.names(CardTopic.SHARED));
    for (String name : watched) {
      draft =
          expression(
              draft,
              CardTopic.BEHAVIOUR,
              name,
              "What the card puts on " + name + ", such as A + B, or none",
              NONE);
    }
    return draft;
  }

  private CardDraft expression(
      CardDraft draft, CardTopic topic, String name, String question, String otherwise) {
    if (draft.says(topic, name)) {
      return draft;
    }
    return questions.ask(
        question,
        draft.suggestion(topic, name).orElse(otherwise),
        answer ->
            draft.with(
                topic,
                name
                    + " = "
                    + (topic == CardTopic.BEHAVIOUR && answer.equals(NONE)
                        ? ""
                        : expressionOf(name, answer))));
  }

  /** The options' form {@code Y = A & B} is taken as well; {@code Y == 1} is an expression. */
  private static String expressionOf(String name, String answer) {
    String given = answer.strip();
    String rest = given.startsWith(name) ? given.substring(name.length()).strip() : "";
    return rest.startsWith("=") && !rest.startsWith("==") ? rest.substring(1).strip() : answer;
  }
}
