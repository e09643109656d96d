package cardproof.cli;

import cardproof.fixture.FixtureProfile;
import cardproof.fixture.Plug;
import cardproof.fixture.selftest.Channels;
import cardproof.fixture.selftest.Delays;
import cardproof.fixture.selftest.Finding;
import cardproof.fixture.selftest.PlugEnding;
import cardproof.fixture.selftest.SelfTest;
import cardproof.fixture.selftest.SelfTestResult;
import cardproof.fixture.selftest.Slow;
import cardproof.fixture.selftest.Span;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** A self-test in words: the channels, what is wrong and where to look, the delay, the verdict. */
final class SelftestReport {
  private static final int MOST_UNEXPLAINED = 10;

  private final SelftestSetup setup;
  private final FixtureProfile profile;
  private final Screen screen;
  private final PrintWriter out;

  SelftestReport(SelftestSetup setup, Screen screen) {
    this.setup = setup;
    this.profile = setup.profile();
    this.screen = screen;
    this.out = screen.out();
  }

  void print(SelfTest test, Optional<PlugEnding> ending) {
    boolean simulated = setup.onBench() || test.onBoardThatSimulates();
    out.println(
        screen.strong("self-test of fixture '" + profile.name() + "'")
            + (simulated ? "   SIMULATED" : ""));
    out.println(
        setup.onBench() ? "on the simulated bench, seed " + setup.seed() : "at " + setup.port());
    setup.faultNames().forEach(fault -> out.println("fault put in: " + fault));
    if (ending.isPresent()) {
      out.println();
      out.println("Ended early: " + ending.get().problem().found() + ".");
      out.println(verdict("NOT PROVED", false) + simulated(simulated));
      return;
    }
    SelfTestResult result = test.result();
    plugs(result);
    channels(result);
    findings(result);
    delay(result.delays());
    last(result, simulated);
  }

  private void plugs(SelfTestResult result) {
    for (Plug plug : result.plugs()) {
      out.println("plug " + plug.number() + ": " + plug.wiring());
    }
    out.println();
  }

  private void channels(SelfTestResult result) {
    List<SelftestRows.Row> rows = new SelftestRows(result).rows();
    if (rows.isEmpty()) {
      return;
    }
    out.println("times in us from switching the drive to the watch, least / median / most");
    out.println("  drive watch               rise                  fall  verdict");
    for (SelftestRows.Row row : rows) {
      out.printf(
          "  %-5s %-5s %18s    %18s  %s%n",
          "D" + row.join().drive(),
          "W" + row.join().watch(),
          span(row.rise()),
          span(row.fall()),
          row.ok() ? "ok" : screen.bad(row.verdict()));
    }
    out.println();
  }

  private static String span(Optional<Span> span) {
    return span.map(s -> s.leastUs() + " / " + s.medianUs() + " / " + s.mostUs()).orElse("-");
  }

  private void findings(SelfTestResult result) {
    result.wrongPlugs().forEach(this::wrong);
    for (Finding finding : result.findings()) {
      wrong(finding.sentence());
      finding.oneOf().forEach(t -> out.println("    look first: " + SelftestAdvice.of(t)));
    }
    result.delays().slow().stream().map(Slow::sentence).distinct().forEach(this::wrong);
    result.unrest().stream().map(SelftestRows::sentence).forEach(this::wrong);
    if (!result.unexplained().isEmpty()) {
      wrong("this was seen too, and no fault that is known here accounts for it");
      result.unexplained().stream()
          .limit(MOST_UNEXPLAINED)
          .forEach(seen -> out.println("    " + seen));
      int more = result.unexplained().size() - MOST_UNEXPLAINED;
      if (more > 0) {
        out.println("    and " + more + " more");
      }
    }
    if (!result.passed()) {
      out.println();
    }
  }

  private void wrong(String sentence) {
    out.println(screen.bad("WRONG") + "  " + sentence + ".");
  }

  private void delay(Delays delays) {
    if (delays.both().isEmpty()) {
      return;
    }
    Span all = delays.both().get();
    String period = String.format(Locale.ROOT, "%.1f us", delays.periodNs() / 1e3);
    out.printf(
        "the fixture's own delay, drive and watch together: median %d us, channels from %d us to %d us;"
            + " it samples every %s%n",
        all.medianUs(), all.leastUs(), all.mostUs(), period);
    if (delays.offerUs() == 0) {
      out.println("That is less than it can see: leave 'delay' out of the profile.");
      return;
    }
    if (!delays.slow().isEmpty()) {
      out.println("No 'delay' is offered before the slow channels are put right.");
      out.println();
      return;
    }
    long off = Math.max(all.mostUs() - all.medianUs(), all.medianUs() - all.leastUs());
    if (setup.onBench()) {
      out.println("A simulated fixture's profile takes no 'delay'; that of a board would get");
    } else {
      long stated = profile.watch().delayUs();
      out.println(
          stated == 0
              ? "The profile states none. Paste under its 'watches'"
              : "The profile states " + stated + " us. Paste over that under its 'watches'");
    }
    out.printf(
        "    delay: %d us  # measured through a plug; times of a card are then right to %d us%n%n",
        delays.offerUs(), off + (long) Math.ceil(delays.periodNs() / 1e3));
  }

  private void last(SelfTestResult result, boolean simulated) {
    String bench = simulated(simulated);
    if (!result.passed()) {
      out.println(
          verdict("NOT PROVED", false)
              + bench
              + (result.wrongPlugs().isEmpty()
                  ? ""
                  : ", for the plug is not right; nothing is said of what was not tried"));
      return;
    }
    if (result.proved()) {
      out.println(
          verdict("PROVED", true)
              + ", "
              + Plural.of(profile.drives(), "drive")
              + " and "
              + (profile.watches() == 1 ? "1 watch" : profile.watches() + " watches")
              + bench);
      return;
    }
    out.println(
        verdict("PASSED", true)
            + bench
            + ", which does not prove it: "
            + String.join("; ", whyNot(result)));
  }

  private static List<String> whyNot(SelfTestResult result) {
    return Stream.of(
            result.once(true).isEmpty()
                ? ""
                : Channels.list("D", result.once(true)) + " met fewer than two watches",
            result.once(false).isEmpty()
                ? ""
                : Channels.list("W", result.once(false))
                    + " met fewer than two drives, so that what is crossed on both sides stays"
                    + " unseen",
            result.leftOut() == 0
                ? ""
                : Plural.of(result.leftOut(), "pattern")
                    + " of many drives at once would be too much for the drivers by the profile",
            Math.min(result.profile().drives(), result.profile().watches()) > 2
                ? ""
                : "two channels that are crossed on both sides cannot be seen")
        .filter(why -> !why.isEmpty())
        .toList();
  }

  private String verdict(String word, boolean good) {
    return (good ? screen.good(word) : screen.bad(word)) + ": fixture '" + profile.name() + "'";
  }

  private static String simulated(boolean simulated) {
    return simulated ? " (SIMULATED)" : "";
  }
}
