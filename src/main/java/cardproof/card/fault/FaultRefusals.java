package cardproof.card.fault;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** What is said of a fault's name that cannot be had. */
final class FaultRefusals {
  private final String fault;
  private final Places places;

  FaultRefusals(String fault, Places places) {
    this.fault = fault;
    this.places = places;
  }

  RefusedException of(String found, String wanted, String next) {
    return new RefusedException(new Problem("fault '" + fault + "'", found, wanted, next));
  }

  RefusedException withoutWiring() {
    return of(
        "card " + places.card().name() + " does not say what is soldered on it",
        "'wiring' in " + places.card().at().file(),
        "Without it can be asked: " + FaultNames.LINE_FORMS);
  }

  RefusedException spells(String when) {
    return of(
        "'" + when + "' does not say how often it is there",
        "a chance from 0.1 % to 99.9 % and spells of 100 us to 3600 s, as in '"
            + SpellWords.EXAMPLE.substring(2)
            + "'",
        "What is always there has no comma behind it");
  }

  RefusedException noRail(String rail) {
    return of(
        "a line cannot be stuck at '" + rail + "'",
        "'ground' or 'supply'",
        Nearest.hint(rail, List.of(Verb.GROUND, Verb.SUPPLY)));
  }

  /** The words that say what is wrong are not there. */
  RefusedException noFaultName(String name) {
    for (int end = name.length(); end > 0; end = name.lastIndexOf(' ', end - 1)) {
      Optional<Site> site = places.find(name.substring(0, end));
      if (site.isPresent()) {
        return of(
            "this is no fault name",
            Forms.quoted(Forms.of(site.get(), places)),
            nearVerb(name.substring(end).strip()));
      }
    }
    String all =
        places.wired()
            ? FaultNames.LINE_FORMS + ", " + FaultNames.WIRING_FORMS
            : FaultNames.LINE_FORMS;
    return of("this is no fault name", all, "");
  }

  private static String nearVerb(String words) {
    for (String verb : Verb.all()) {
      int length = verb.split(" ").length;
      String first =
          List.of(words.split(" ")).stream().limit(length).collect(Collectors.joining(" "));
      if (Nearest.to(first, List.of(verb)).isPresent()) {
        return "Did you mean '" + verb + "'?";
      }
    }
    return "";
  }

  /** A thing of which this cannot be said. */
  RefusedException cannot(Site site, Verb verb) {
    return of(
        "'" + verb.words.strip() + "' cannot be said of " + described(site),
        Forms.quoted(Forms.of(site, places)),
        "");
  }

  private String described(Site site) {
    if (site instanceof NetSite) {
      return site.name();
    }
    if (site instanceof LineSite) {
      return "line " + site.name();
    }
    if (site instanceof TerminalSite) {
      return "terminal " + site.name();
    }
    return Forms.kind(places.part(site.name()).orElseThrow()) + " " + site.name();
  }

  RefusedException unknown(String written, Verb verb) {
    String card = "card " + places.card().name();
    if (!places.wired()) {
      return of(
          card + " has no line '" + written + "'",
          "a line name such as S[3], or a printed label",
          near(written, places.lines()));
    }
    Optional<Part> part = places.partOf(written);
    if (part.isPresent()) {
      return noTerminal(part.get(), written.substring(written.lastIndexOf('.') + 1));
    }
    return noPin(written)
        .orElseGet(
            () -> of(card + " has no '" + written + "'", wanted(verb), near(written, known(verb))));
  }

  private RefusedException noTerminal(Part part, String terminal) {
    String poles =
        part instanceof Relay relay
            ? " has "
                + relay.poles().size()
                + (relay.poles().size() == 1 ? " pole" : " poles")
                + " and"
            : " has";
    List<String> names = part.terminals().stream().map(Terminal::name).toList();
    return of(
        Forms.kind(part) + " " + part.name() + poles + " no terminal '" + terminal + "'",
        String.join(", ", names),
        Nearest.to(terminal, names)
            .map(name -> "Did you mean '" + part.name() + "." + name + "'?")
            .orElse(""));
  }

  /** Where the connector is right and the number is not. */
  private Optional<RefusedException> noPin(String written) {
    String connector = written.substring(0, Math.max(0, written.lastIndexOf('.')));
    List<Integer> pins =
        places.card().lines().stream()
            .map(line -> line.pin())
            .filter(pin -> pin.connector().equalsIgnoreCase(connector))
            .map(pin -> pin.number())
            .sorted()
            .toList();
    return pins.isEmpty()
        ? Optional.empty()
        : Optional.of(
            of(
                "no line leaves at " + written,
                "a pin of "
                    + connector
                    + " with a line, "
                    + pins.get(0)
                    + " to "
                    + pins.get(pins.size() - 1),
                ""));
  }

  private String near(String written, List<String> known) {
    return places
        .card()
        .lineWithoutBrackets(written)
        .map(line -> "Did you mean '" + line.name() + "'?")
        .or(() -> nearPart(written))
        .orElseGet(() -> Nearest.hint(written, known));
  }

  /** {@code K3.no1} for {@code K33.no1}. */
  private Optional<String> nearPart(String written) {
    int dot = written.lastIndexOf('.');
    if (dot <= 0) {
      return Optional.empty();
    }
    String terminal = written.substring(dot);
    List<String> parts =
        places.parts(Part.class).stream()
            .filter(part -> places.find(part + terminal).isPresent())
            .toList();
    return Nearest.to(written.substring(0, dot), parts)
        .map(part -> "Did you mean '" + part + terminal + "'?");
  }

  private static String wanted(Verb verb) {
    return switch (verb) {
      case STUCK_AT -> "a line or a net";
      case EXCHANGED_WITH -> "a line, or a terminal such as K3.no1";
      case BRIDGED_TO -> "a line, a terminal such as K3.no1, or a net";
      case SLOW_BY, COIL_OPEN -> "a relay";
      case JOINT_MISSING -> "a terminal such as K3.com2, a line, or a pin such as J2.7";
      case NEVER_MAKES, WELDED -> "a contact such as K3.no2";
      case OPEN -> "a diode, fuse, resistor or wire";
      case SHORT, BACKWARDS -> "a diode";
      case DEAD -> "a lamp";
    };
  }

  private List<String> known(Verb verb) {
    List<String> names = new ArrayList<>();
    switch (verb) {
      case STUCK_AT -> {
        names.addAll(places.lines());
        places.nets().stream().filter(net -> !names.contains(net)).forEach(names::add);
      }
      case EXCHANGED_WITH, BRIDGED_TO, JOINT_MISSING -> names.addAll(places.all());
      case SLOW_BY, COIL_OPEN, NEVER_MAKES, WELDED -> names.addAll(places.parts(Relay.class));
      case SHORT, BACKWARDS -> names.addAll(places.parts(Diode.class));
      case DEAD -> names.addAll(places.parts(Lamp.class));
      case OPEN -> {
        names.addAll(places.parts(Part.class));
        names.removeAll(places.parts(Relay.class));
        names.removeAll(places.parts(Lamp.class));
      }
    }
    return names;
  }

  static String wiredTerminals(Part part) {
    return part.terminals().stream()
        .filter(Terminal::wired)
        .map(terminal -> part.name() + "." + terminal.name())
        .collect(Collectors.joining(", "));
  }
}
