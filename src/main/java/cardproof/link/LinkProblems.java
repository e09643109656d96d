package cardproof.link;

import cardproof.text.Problem;
import java.util.Locale;

/** What can be wrong with a fixture or the line to it, in words. */
final class LinkProblems {
  private static final String CHECK_LINE = "Check the cable, the board's power and its firmware";

  private LinkProblems() {}

  static LinkException silent(String wire, long waitedMs) {
    return problem(
        wire,
        "nothing answered within " + waitedMs + " ms",
        "a fixture that answers HELLO",
        CHECK_LINE + ", and that this is its port");
  }

  static LinkException foreign(String wire, long bytes) {
    return problem(
        wire,
        "something sent " + bytes + " bytes, but no answer to HELLO was among them",
        "a fixture of protocol "
            + Protocol.MAJOR
            + "."
            + Protocol.MINOR
            + " at the speed of this port",
        "Choose another port, or load the fixture's firmware onto this board");
  }

  static LinkException otherMajor(String wire, HelloReply reply) {
    return problem(
        wire,
        "the fixture speaks protocol " + reply.major() + "." + reply.minor(),
        "protocol " + Protocol.MAJOR + ".x, which this program speaks",
        reply.major() > Protocol.MAJOR
            ? "Use a newer version of this program, or load matching firmware"
            : "Load newer firmware onto the fixture");
  }

  static LinkException frameTooShort(String wire, HelloReply reply, int needed) {
    return problem(
        wire,
        String.format(
            Locale.ROOT,
            "the fixture has %d drives and %d watches but takes no frame longer than %d bytes",
            reply.drives(),
            reply.watches(),
            reply.longestFrame()),
        "room for " + needed + " bytes",
        "Its firmware is at fault: enlarge the receive buffer, or report fewer channels");
  }

  static LinkException tooManyEntries(String wire, HelloReply hello, int entries) {
    int most = hello.mostEntriesOfSequence();
    return problem(
        wire,
        most == 0
            ? "the board '" + hello.board() + "' runs no timed sequences" + version(hello)
            : "the board '"
                + hello.board()
                + "' runs sequences of "
                + most
                + " later settings at most",
        "a fixture that switches " + entries + " times within one step, on its own clock",
        most == 0
            ? "Load firmware with timed sequences onto it, or run this plan on the simulated bench"
            : "Make the sequence shorter, or use a fixture that keeps more");
  }

  static LinkException noCapture(String wire, HelloReply hello) {
    return problem(
        wire,
        "the board '" + hello.board() + "' does not keep every edge" + version(hello),
        "a fixture that captures edges",
        "Load firmware with edge capture onto it, or run this plan on the simulated bench");
  }

  static LinkException noSupplySwitch(String wire, HelloReply hello) {
    return problem(
        wire,
        "the board '" + hello.board() + "' has no switch in the card's supply" + version(hello),
        "a fixture that can switch the supply",
        "Use a fixture with a supply switch, or a profile that says 'supply: {switch: none}' and"
            + " switch by hand");
  }

  static LinkException noSense(String wire, HelloReply hello) {
    return problem(
        wire,
        "the board '" + hello.board() + "' does not sense the card's supply" + version(hello),
        "a fixture that senses rail and current",
        "Use a fixture that does, or take 'current' and 'voltage' out of its profile");
  }

  private static String version(HelloReply hello) {
    return " (protocol " + hello.major() + "." + hello.minor() + ")";
  }

  static LinkException noAnswer(String wire, String request, int tries, long waitedMs) {
    return problem(
        wire,
        "link lost: no answer to " + request + ", sent " + tries + " times in " + waitedMs + " ms",
        "",
        CHECK_LINE + "; drives drop by themselves when the fixture hears nothing");
  }

  static LinkException lost(String wire, long quietMs, LinkCounters counters) {
    return problem(
        wire,
        String.format(
            Locale.ROOT,
            "link lost: no valid frame for %d ms (%d whole and %d damaged before)",
            quietMs,
            counters.framesReceived(),
            counters.framesDamaged()),
        "",
        CHECK_LINE + "; drives drop by themselves when the fixture hears nothing");
  }

  static LinkException hung(String wire, int number, long waitedMs, Status status) {
    return problem(
        wire,
        String.format(
            Locale.ROOT,
            "step %d is hung: after %d ms it has no result; the fixture is in %s with step %d next to"
                + " finish. It was told to STOP",
            number,
            waitedMs,
            status.state(),
            status.finished()),
        "",
        "Reset the fixture; when it happens again its firmware is at fault");
  }

  static LinkException notTaken(String wire, int number, int tries) {
    return problem(
        wire,
        "step " + number + " was sent " + tries + " times and not taken",
        "",
        "The line loses nearly everything, or the fixture does not queue steps: see the counters of"
            + " damaged frames");
  }

  static LinkException refused(String wire, String what, Nack nack) {
    return problem(
        wire,
        String.format(
            Locale.ROOT,
            "the fixture refused %s: %s%s",
            what,
            nack.reason().name().toLowerCase(Locale.ROOT).replace('_', ' '),
            nack.reason() == NackReason.BAD_FIELD ? " at offset " + nack.detail() : ""),
        "",
        "Check the fixture's file against what the board can do");
  }

  static LinkException wrongState(String wire, String wanted, Status status) {
    return new LinkException(
        new Problem(
            wire,
            "the fixture is in state "
                + status.state()
                + ", its drives last went down by "
                + status.cause(),
            wanted,
            "The fixture dropped its drives by itself before the run had begun, as when this computer"
                + " was held up; run again"),
        status);
  }

  private static LinkException problem(String where, String found, String wanted, String next) {
    return new LinkException(new Problem(where, found, wanted, next));
  }
}
