package cardproof.files.draft;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;

/** Writes a card's file from a draft. */
final class CardText {
  private static final Pattern PLAIN =
      Pattern.compile("[A-Za-z0-9_]([A-Za-z0-9_ .+*/()<>|^~=?-]*[A-Za-z0-9_)])?");
  private static final Pattern CONNECTOR = Pattern.compile("([A-Za-z][A-Za-z0-9_-]*)\\.");
  private static final String GUESSED = "   # guessed from names and widths: correct it";

  /** Stands before a line that is not known yet; nobody should ever read it. */
  static final String LATER = "_later_";

  private static final String GUESSED_PINS =
      "   # guessed: correct these before wiring from the hook-up table";

  private final CardDraft draft;
  private final String settle;
  private final StringBuilder out = new StringBuilder();
  private final List<String> taken = new ArrayList<>();
  private int connector;

  CardText(CardDraft draft, String settle) {
    this.draft = draft;
    this.settle = settle;
    for (CardTopic topic : List.of(CardTopic.INPUT, CardTopic.OUTPUT, CardTopic.SHARED)) {
      for (BusAnswer bus : draft.buses(topic)) {
        CONNECTOR.matcher(bus.pins()).results().forEach(r -> taken.add(r.group(1)));
      }
    }
  }

  /**
   * @param unfinished puts in lines that are not known yet, so that the rest can be read
   */
  String text(boolean unfinished) {
    String name = draft.has(CardTopic.NAME) ? draft.one(CardTopic.NAME) : "unnamed";
    line(
        "# The " + comment(name) + " card. Everything here can be changed; 'cardproof check' says");
    line("# what it makes of it.");
    line("card: " + scalar(name));
    line("title: " + scalar(draft.title()));
    line("");
    line("# What the supply stands at, and the most that the card should ever draw.");
    line(
        "supply: {voltage: " + flow(CardTopic.VOLTAGE) + ", limit: " + flow(CardTopic.LIMIT) + "}");
    buses(
        CardTopic.INPUT,
        "inputs",
        "Lines that are driven into the card, with their pins, bit 0 first.",
        unfinished);
    buses(CardTopic.OUTPUT, "outputs", "Lines that the card drives.", unfinished);
    buses(CardTopic.SHARED, "shared", "Buses that card and fixture drive alike.", false);
    states();
    behaviour();
    line("");
    line("# The latest change of any output after the lines that are driven have changed.");
    line("limits: {settle: " + scalar(settle) + "}");
    line("");
    line("# From the relays' data sheet; unseen-stages: the most relays in series with no watched");
    line("# line between them. They give the time a card must hold still to count as settled.");
    line(
        "relays: {unseen-stages: "
            + flow(CardTopic.UNSEEN_STAGES)
            + ", operate: "
            + flow(CardTopic.OPERATE)
            + ", release: "
            + flow(CardTopic.RELEASE)
            + ", bounce: "
            + flow(CardTopic.BOUNCE)
            + "}");
    return out.toString();
  }

  private void line(String text) {
    out.append(text).append('\n');
  }

  private void buses(CardTopic topic, String key, String about, boolean unfinished) {
    List<BusAnswer> buses = draft.buses(topic);
    boolean madeUp = unfinished && buses.isEmpty();
    if (buses.isEmpty() && !madeUp) {
      return;
    }
    line("");
    line("# " + about);
    line(key + ":");
    if (madeUp) {
      line("  " + LATER + key + ": {at: later_" + key + ".1}");
      return;
    }
    String own = "";
    int pin = 1;
    for (BusAnswer bus : buses) {
      String at = bus.pins();
      if (at.isEmpty()) {
        own = own.isEmpty() ? freeConnector() : own;
        int last = pin + bus.lines() - 1;
        at = own + "." + pin + (last == pin ? "" : "-" + last);
        pin = last + 1;
      }
      String width = bus.width().isEmpty() ? "" : "width: " + scalar(bus.width()) + ", ";
      line(
          "  "
              + scalar(bus.name())
              + ": {"
              + width
              + "at: "
              + scalar(at)
              + "}"
              + (bus.pins().isEmpty() ? GUESSED_PINS : ""));
    }
  }

  /** The next of J1, J2 ... on which nobody has put a line of their own. */
  private String freeConnector() {
    do {
      connector++;
    } while (taken.contains("J" + connector));
    return "J" + connector;
  }

  private void states() {
    if (!draft.has(CardTopic.STATE)) {
      return;
    }
    line("");
    line("# What the card keeps: its value when power has come on (x where that cannot be known),");
    line("# and its next value, which is taken again and again until nothing changes.");
    line("state:");
    for (BusAnswer state : draft.buses(CardTopic.STATE)) {
      Optional<String> said = draft.assigned(CardTopic.NEXT, state.name());
      String next =
          said.or(() -> draft.suggestion(CardTopic.NEXT, state.name())).orElse(state.name());
      String width = state.width().isEmpty() ? "" : "width: " + scalar(state.width()) + ", ";
      String powerOn = state.powerOn().isEmpty() ? "x" : state.powerOn();
      line(
          "  "
              + scalar(state.name())
              + ": {"
              + width
              + "power-on: "
              + scalar(powerOn)
              + ", next: "
              + quoted(next)
              + "}"
              + (said.isPresent() ? "" : GUESSED));
    }
  }

  private void behaviour() {
    List<String> lines = new ArrayList<>();
    List<String> silent = new ArrayList<>();
    List<String> watched = new ArrayList<>(draft.names(CardTopic.OUTPUT));
    watched.addAll(draft.names(CardTopic.SHARED));
    for (String name : watched) {
      Optional<String> said = draft.assigned(CardTopic.BEHAVIOUR, name);
      Optional<String> guess =
          said.isPresent() ? said : draft.suggestion(CardTopic.BEHAVIOUR, name);
      if (guess.isPresent() && !guess.get().isEmpty()) {
        lines.add("  " + name + ": " + scalar(guess.get()) + (said.isPresent() ? "" : GUESSED));
      } else {
        silent.add(name);
      }
    }
    // what is said of a name that is none goes in too, for the reader to refuse
    draft.all(CardTopic.BEHAVIOUR).stream()
        .map(answer -> answer.substring(0, answer.indexOf('=')).strip())
        .filter(name -> !watched.contains(name))
        .forEach(name -> lines.add("  " + scalar(name) + ": 0"));
    line("");
    line(
        "# What the card puts on its outputs and shared buses, such as S: A + B. A plan need not say");
    line("# what to expect of these, and the simulated bench plays them.");
    if (!silent.isEmpty()) {
      line("# Nothing is said here of " + comment(String.join(", ", silent)) + ".");
    }
    line(lines.isEmpty() ? "behaviour: {}" : "behaviour:");
    lines.forEach(this::line);
  }

  private String flow(CardTopic topic) {
    return scalar(draft.one(topic));
  }

  /** As a value may be written: in quotes where YAML would take it for something else. */
  static String scalar(String text) {
    return PLAIN.matcher(text).matches() ? text : quoted(text);
  }

  private static String quoted(String text) {
    StringBuilder quoted = new StringBuilder("\"");
    text.chars()
        .forEach(
            c -> {
              if (c == '"' || c == '\\') {
                quoted.append('\\').append((char) c);
              } else if (Character.isISOControl(c) || c == 0x2028 || c == 0x2029) {
                quoted.append(String.format(java.util.Locale.ROOT, "\\u%04X", c));
              } else {
                quoted.append((char) c);
              }
            });
    return quoted.append('"').toString();
  }

  private static String comment(String text) {
    return text.replaceAll("\\p{Cntrl}", " ");
  }
}
