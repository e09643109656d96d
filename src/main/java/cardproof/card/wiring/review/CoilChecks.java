package cardproof.card.wiring.review;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Whether each coil can be fed, and where its current goes when the feed opens. */
final class CoilChecks {
  private final Circuit circuit;
  private final Ends ends;
  private final AnyWay anyWay;
  private final WaySearch search;
  private final Flyback flyback;
  private final Words words;
  private final long supplyMillivolts;
  private final Findings findings;

  CoilChecks(
      Circuit circuit,
      Ends ends,
      WaySearch search,
      Words words,
      long supplyMillivolts,
      Findings findings) {
    this.circuit = circuit;
    this.ends = ends;
    this.anyWay = AnyWay.of(circuit, ends);
    this.search = search;
    this.flyback = new Flyback(circuit);
    this.words = words;
    this.supplyMillivolts = supplyMillivolts;
    this.findings = findings;
  }

  /** Leaves diodes that are the wrong way round out of later searches, as they are reported. */
  void check() {
    for (int r = 0; r < circuit.relays().size(); r++) {
      Relay relay = circuit.relays().get(r);
      boolean spare = relay.terminals().stream().noneMatch(Terminal::wired);
      if (!spare) {
        check(relay, circuit.coil(r));
      }
    }
  }

  private void check(Relay relay, Load coil) {
    boolean first = relay.coil1() != Terminal.NOT_WIRED;
    boolean second = relay.coil2() != Terminal.NOT_WIRED;
    if (!first && !second) {
      never(relay, "nothing is wired to the coil of " + relay.name(), "Wire its coil");
    } else if (!first || !second) {
      noReturn(relay, relay.name() + (first ? " coil2" : " coil1") + " is not wired");
    } else if (coil.first() == coil.second()) {
      noReturn(relay, "both ends of the coil of " + relay.name() + " are joined");
    } else {
      volts(relay);
      Optional<List<Way>> straight = search.through(coil, false, ends, true);
      boolean gaveUp = search.gaveUp();
      Optional<List<Way>> turned = search.through(coil, true, ends, true);
      gaveUp |= search.gaveUp();
      straight.ifPresent(ways -> fed(relay, coil, false, ways));
      turned.ifPresent(ways -> fed(relay, coil, true, ways));
      if (straight.isEmpty() && turned.isEmpty()) {
        if (gaveUp) {
          findings.add(
              Kind.NOT_SEARCHED,
              relay.at(),
              "the search for a way through the coil of " + relay.name() + " was given up",
              "",
              "Look at it by hand: nothing was found, but not all was looked at");
        } else {
          unfed(relay, coil);
        }
      }
    }
  }

  private void volts(Relay relay) {
    long needed = relay.type().coilMillivolts() * relay.type().operatePercent() / 100;
    if (supplyMillivolts < needed) {
      findings.add(
          Kind.WEAK_SUPPLY,
          relay.at(),
          String.format(
              Locale.ROOT,
              "%s (%s) operates from %.1f V, and the supply is %.1f V",
              relay.name(),
              relay.type().name(),
              needed / 1e3,
              supplyMillivolts / 1e3),
          "",
          "Take a relay with a coil for this supply");
    }
  }

  private void unfed(Relay relay, Load coil) {
    String name = relay.name();
    boolean high = anyWay.canBeHigh(coil.first()) || anyWay.canBeHigh(coil.second());
    boolean oneWay = anyWay.canBeHigh(coil.first()) && anyWay.canBeLow(coil.second());
    boolean otherWay = anyWay.canBeHigh(coil.second()) && anyWay.canBeLow(coil.first());
    if (!high) {
      never(
          relay,
          "no way leads from the supply or a driven line to the coil of " + name,
          "Follow its nets "
              + words.net(relay.coil1())
              + " and "
              + words.net(relay.coil2())
              + " back to where they should be fed");
    } else if (!oneWay && !otherWay) {
      boolean turned = !anyWay.canBeHigh(coil.first());
      noReturn(
          relay,
          "current through "
              + name
              + " has no way back: from "
              + name
              + (turned ? " coil1" : " coil2")
              + ", net "
              + words.net(turned ? relay.coil1() : relay.coil2())
              + ", no contact or diode leads to "
              + words.net(circuit.wiring().ground()));
    } else if (search.through(coil, false, ends, false).isPresent()
        || search.through(coil, true, ends, false).isPresent()) {
      never(
          relay,
          name + " can never operate: its coil is fed by its own contact alone",
          "Give it a way that lets it operate in the first place");
    } else {
      noReturn(
          relay,
          "current through "
              + name
              + " has no way back: every way to its coil and from it asks one relay to be operated"
              + " and released at once");
    }
  }

  private void never(Relay relay, String found, String next) {
    findings.add(Kind.NEVER_FED, relay.at(), found, "", next);
  }

  private void noReturn(Relay relay, String found) {
    findings.add(
        Kind.NO_RETURN,
        relay.at(),
        found,
        "",
        "Give the coil a way to "
            + words.net(circuit.wiring().ground())
            + " (a resistor in series may have a third of the smallest coil at most)");
  }

  private void fed(Relay relay, Load coil, boolean turned, List<Way> ways) {
    int high = turned ? coil.second() : coil.first();
    int low = turned ? coil.first() : coil.second();
    boolean wrong = false;
    for (int l : circuit.at(high)) {
      Link link = circuit.link(l);
      if (link.oneWay() && link.from() == high && link.to() == low) {
        wrong = true;
        search.leaveOut(l);
        wrongWay((Diode) link.part(), relay, coil, turned, ways);
      }
    }
    if (!wrong && !flyback.exists(coil, high, low)) {
      findings.add(
          Kind.NO_FLYBACK,
          relay.at(),
          "the current of "
              + relay.name()
              + " has nowhere to go when its feed opens: "
              + path(coil, turned, ways),
          "a diode across the coil, its cathode at "
              + relay.name()
              + (turned ? " coil2" : " coil1"),
          "Add 'flyback: diode' and the diode itself: the coil's kick burns contacts and drivers");
    }
  }

  private void wrongWay(Diode diode, Relay relay, Load coil, boolean turned, List<Way> ways) {
    findings.add(
        Kind.WRONG_WAY_DIODE,
        diode.at(),
        diode.name()
            + " is the wrong way round across "
            + relay.name()
            + ": a short as soon as the coil is fed by "
            + path(coil, turned, ways),
        "its cathode at " + relay.name() + (turned ? " coil2" : " coil1"),
        "Turn it round");
  }

  private String path(Load coil, boolean turned, List<Way> ways) {
    return words.through(
        source(ways.get(0).from()),
        ways.get(0),
        coil,
        turned,
        ways.get(1),
        circuit.wiring().ground());
  }

  private int source(int node) {
    return circuit.netOf(node);
  }
}
