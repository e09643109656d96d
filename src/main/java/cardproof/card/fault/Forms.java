package cardproof.card.fault;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What can be asked of a place, for those who asked something else of it. */
final class Forms {
  private Forms() {}

  static List<String> of(Site site, Places places) {
    if (site instanceof LineSite) {
      return places.wired()
          ? all(site, Verb.STUCK_AT, Verb.JOINT_MISSING, Verb.EXCHANGED_WITH, Verb.BRIDGED_TO)
          : all(site, Verb.STUCK_AT, Verb.EXCHANGED_WITH);
    }
    if (site instanceof NetSite) {
      return all(site, Verb.STUCK_AT, Verb.BRIDGED_TO);
    }
    if (site instanceof TerminalSite one) {
      boolean contact = one.terminal().startsWith("n");
      Stream<String> every =
          all(site, Verb.JOINT_MISSING, Verb.EXCHANGED_WITH, Verb.BRIDGED_TO).stream();
      return contact
          ? Stream.concat(all(site, Verb.NEVER_MAKES, Verb.WELDED).stream(), every).toList()
          : every.toList();
    }
    Part part = places.part(site.name()).orElseThrow();
    List<String> forms = new ArrayList<>(ofPart(part, site));
    if (part instanceof Relay relay) {
      places.contacts(relay).stream()
          .limit(1)
          .forEach(
              contact -> {
                forms.add(contact + Verb.NEVER_MAKES.words);
                forms.add(contact + Verb.WELDED.words);
              });
    }
    forms.add(site.name() + "." + part.terminals().get(0).name() + Verb.JOINT_MISSING.words);
    return forms;
  }

  private static List<String> ofPart(Part part, Site site) {
    if (part instanceof Relay) {
      return all(site, Verb.COIL_OPEN, Verb.SLOW_BY);
    }
    if (part instanceof Diode) {
      return all(site, Verb.OPEN, Verb.SHORT, Verb.BACKWARDS);
    }
    return all(site, part instanceof Lamp ? Verb.DEAD : Verb.OPEN);
  }

  private static List<String> all(Site site, Verb... verbs) {
    return Stream.of(verbs).map(verb -> site.name() + verb.words + rest(verb)).toList();
  }

  private static String rest(Verb verb) {
    return switch (verb) {
      case STUCK_AT -> "ground (or supply)";
      case SLOW_BY -> "20 ms";
      case EXCHANGED_WITH, BRIDGED_TO -> "...";
      default -> "";
    };
  }

  /** {@code 'a', 'b' or 'c'}. */
  static String quoted(List<String> forms) {
    String last = "'" + forms.get(forms.size() - 1) + "'";
    if (forms.size() == 1) {
      return last;
    }
    return forms.stream()
        .limit(forms.size() - 1L)
        .map(form -> "'" + form + "'")
        .collect(Collectors.joining(", ", "", " or " + last));
  }

  /** {@code a relay}. */
  static String kind(Part part) {
    return part instanceof Relay
        ? "a relay"
        : part instanceof Diode
            ? "a diode"
            : part instanceof Lamp
                ? "a lamp"
                : part instanceof Fuse
                    ? "a fuse"
                    : part instanceof Resistor ? "a resistor" : "a wire";
  }
}
