package cardproof.card.fault;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Fuse;
import cardproof.card.wiring.Lamp;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Resistor;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wire;
import cardproof.text.RefusedException;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Function;

/** Reads one fault's name; used once. */
final class FaultReader {
  private static final int MOST_PERCENT = 1000;
  private static final long MOST_SLOWER_US = 10_000_000;

  private final Places places;
  private final FaultRefusals refusals;
  private final String text;

  FaultReader(String text, Card card) {
    this.text = text.strip().replaceAll("\\s+", " ");
    this.places = new Places(card);
    this.refusals = new FaultRefusals(text, places);
  }

  /**
   * @throws RefusedException as {@link FaultNames#parse} does
   */
  Fault read() {
    SpellWords.Cut cut = SpellWords.cut(text);
    Fault fault = plain(cut.fault());
    if (cut.when().isEmpty()) {
      return fault;
    }
    if (!places.wired()) {
      throw refusals.withoutWiring();
    }
    if (fault instanceof RelaySlow) {
      throw refusals.of(
          "a slow relay is slow all the time", "'" + fault.name() + "' and no more", "");
    }
    return SpellWords.put(fault, cut.when()).orElseThrow(() -> refusals.spells(cut.when()));
  }

  private Fault plain(String name) {
    Verb.Clause clause = Verb.find(name).orElseThrow(() -> refusals.noFaultName(name));
    Verb verb = clause.verb();
    if (!places.wired() && verb != Verb.STUCK_AT && verb != Verb.EXCHANGED_WITH) {
      throw refusals.withoutWiring();
    }
    Site site = place(clause.about(), verb);
    return switch (verb) {
      case STUCK_AT -> stuck(site, clause.rest());
      case EXCHANGED_WITH -> exchanged(site, place(clause.rest(), verb));
      case BRIDGED_TO -> bridged(site, place(clause.rest(), verb));
      case SLOW_BY -> slow(part(site, Relay.class, verb).name(), clause.rest());
      case JOINT_MISSING -> jointMissing(site);
      case NEVER_MAKES, WELDED -> contact(site, verb);
      case COIL_OPEN -> new CoilOpen(part(site, Relay.class, verb).name());
      case OPEN -> open(site);
      case SHORT -> new DiodeShort(part(site, Diode.class, verb).name());
      case BACKWARDS -> new DiodeBackwards(part(site, Diode.class, verb).name());
      case DEAD -> new PartOpen(part(site, Lamp.class, verb).name(), FaultKind.LAMP_DEAD);
    };
  }

  private Site place(String written, Verb verb) {
    return places.find(written).orElseThrow(() -> refusals.unknown(written, verb));
  }

  private <P extends Part> P part(Site site, Class<P> kind, Verb verb) {
    if (site instanceof PartSite one) {
      Part part = places.part(one.part()).orElseThrow();
      if (kind.isInstance(part)) {
        return kind.cast(part);
      }
    }
    throw refusals.cannot(site, verb);
  }

  private Fault stuck(Site site, String rail) {
    Function<Boolean, Fault> stuck;
    if (site instanceof LineSite one) {
      stuck = supply -> new LineStuck(one.line(), supply);
    } else if (site instanceof NetSite one) {
      stuck = supply -> new NetStuck(one.net(), supply);
    } else {
      throw refusals.cannot(site, Verb.STUCK_AT);
    }
    if (!rail.equalsIgnoreCase(Verb.GROUND) && !rail.equalsIgnoreCase(Verb.SUPPLY)) {
      throw refusals.noRail(rail);
    }
    if (places.wired() && places.isRail(places.netAt(site))) {
      throw refusals.of(
          site.name() + " is the supply or the ground itself",
          "a line or a net that is switched",
          "");
    }
    return stuck.apply(rail.equalsIgnoreCase(Verb.SUPPLY));
  }

  private Fault exchanged(Site first, Site second) {
    if (first instanceof LineSite one && second instanceof LineSite two) {
      return linesExchanged(one.line(), two.line());
    }
    for (Site site : List.of(first, second)) {
      if (!(site instanceof LineSite || site instanceof TerminalSite)) {
        throw refusals.cannot(site, Verb.EXCHANGED_WITH);
      }
    }
    if (!(first instanceof TerminalSite one && second instanceof TerminalSite two)) {
      throw refusals.of(
          "one of " + first.name() + " and " + second.name() + " is a line, the other a terminal",
          "two lines or two terminals",
          "");
    }
    refuseSame(first, second);
    if (places.netAt(first) == places.netAt(second)) {
      throw refusals.of(
          "nothing is soldered to " + first.name() + " or " + second.name(),
          "a wire at one of them at least",
          "");
    }
    return new TerminalsExchanged(one, two);
  }

  private Fault linesExchanged(Line first, Line second) {
    if (first.equals(second)) {
      throw refusals.of(first + " is named twice", "two different lines", "");
    }
    if (first.bus().role() != second.bus().role()) {
      throw refusals.of(
          first + " and " + second + " do not go the same way",
          "two inputs, two outputs or two lines of shared buses",
          "");
    }
    return new LinesExchanged(first, second);
  }

  private Fault bridged(Site first, Site second) {
    for (Site site : List.of(first, second)) {
      if (site instanceof PartSite) {
        throw refusals.cannot(site, Verb.BRIDGED_TO);
      }
    }
    refuseSame(first, second);
    return new Bridged(first, second);
  }

  /** Two names of one place, or two places that are joined as they should be. */
  private void refuseSame(Site first, Site second) {
    if (first.equals(second)) {
      throw refusals.of(first.name() + " is named twice", "two different places", "");
    }
    int net = places.netAt(first);
    // two terminals without a wire are two places all the same, between which solder can run
    if (net != Terminal.NOT_WIRED && net == places.netAt(second)) {
      throw refusals.of(
          first.name() + " and " + second.name() + " are both on net " + places.netName(net),
          "places on two different nets",
          "");
    }
  }

  private Fault jointMissing(Site site) {
    if (site instanceof LineSite) {
      return new JointMissing(site);
    }
    if (!(site instanceof TerminalSite one)) {
      throw refusals.cannot(site, Verb.JOINT_MISSING);
    }
    if (places.netAt(site) == Terminal.NOT_WIRED) {
      Part part = places.part(one.part()).orElseThrow();
      throw refusals.of(
          "nothing is soldered to " + one.name() + " anyway",
          "a terminal with a wire: " + FaultRefusals.wiredTerminals(part),
          "");
    }
    return new JointMissing(one);
  }

  private Fault contact(Site site, Verb verb) {
    if (site instanceof TerminalSite one
        && places.part(one.part()).orElseThrow() instanceof Relay
        && one.terminal().startsWith("n")) {
      Throw contact = one.terminal().startsWith("no") ? Throw.NO : Throw.NC;
      int pole = Integer.parseInt(one.terminal().substring(2));
      return verb == Verb.WELDED
          ? new ContactWelded(one.part(), pole, contact)
          : new ContactNeverMakes(one.part(), pole, contact);
    }
    throw refusals.cannot(site, verb);
  }

  private Fault open(Site site) {
    Part part = part(site, Part.class, Verb.OPEN);
    if (part instanceof Diode) {
      return new PartOpen(part.name(), FaultKind.DIODE_OPEN);
    }
    if (part instanceof Fuse) {
      return new PartOpen(part.name(), FaultKind.FUSE_OPEN);
    }
    if (part instanceof Resistor) {
      return new PartOpen(part.name(), FaultKind.RESISTOR_OPEN);
    }
    if (part instanceof Wire) {
      return new PartOpen(part.name(), FaultKind.WIRE_OPEN);
    }
    throw refusals.cannot(site, Verb.OPEN);
  }

  private Fault slow(String relay, String by) {
    String number = by.endsWith("%") ? by.substring(0, by.length() - 1).strip() : "";
    if (number.matches("[1-9]\\d{0,3}") && Integer.parseInt(number) <= MOST_PERCENT) {
      return new RelaySlow(relay, 0, Integer.parseInt(number));
    }
    OptionalLong us = Spans.read(by);
    if (us.isEmpty() || us.getAsLong() == 0 || us.getAsLong() > MOST_SLOWER_US) {
      throw refusals.of(
          "'" + by + "' does not say how slow",
          "a time such as 20 ms, up to 10 s, or a part of the operate time such as 50 %, up to"
              + " 1000 %",
          "");
    }
    return new RelaySlow(relay, us.getAsLong(), 0);
  }
}
