package cardproof.cli;

import cardproof.fixture.AtReset;
import cardproof.fixture.DriveSide;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.Plug;
import cardproof.fixture.selftest.PlugLoad;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/** What a person checks before a fixture is driven through a plug, and does between two plugs. */
final class SelftestPrompt {
  private static final long LEAST_LIMIT_MILLIAMPS = 100;

  private SelftestPrompt() {}

  static List<String> checks(FixtureProfile profile, Plug plug) {
    DriveSide drive = profile.drive();
    List<String> lines = new ArrayList<>();
    lines.add("Before fixture '" + profile.name() + "' is driven through a plug, check:");
    lines.add("  1. No card is connected to any of its cables.");
    lines.add("  2. Plug " + plug.number() + " is in, and nothing else: " + plug.wiring() + ".");
    lines.add("  3. A fuse is in the supply lead, and polarity is right.");
    lines.add("  4. Ground goes on first and comes off last: supply and fixture.");
    lines.add("  5. The supply stands at " + volts(drive) + ", its current limit at no more than");
    lines.add("     " + limit(profile, plug) + ".");
    lines.add("  6. A hand is at the supply's switch: this program does not work it here.");
    if (drive.atReset() == AtReset.UNDEFINED) {
      lines.add("  7. Its drives are undefined in reset: the board runs before the supply is on.");
    }
    lines.add("Driven are 1s alone, so that nothing is ever driven against anything. A drive that");
    lines.add("is shorted to ground is driven for a moment; the fuse and the limit are for that.");
    lines.add("Mains wiring is for a licensed person, and local rules come before this list.");
    return List.copyOf(lines);
  }

  static List<String> next(Plug plug) {
    return List.of(
        "The drives are down. Switch the supply off, and change to plug " + plug.number() + ":",
        "  " + plug.wiring(),
        "Then switch the supply on again.");
  }

  private static String volts(DriveSide drive) {
    if (drive.mostMillivolts() == 0) {
      return "the voltage of your cards, as far as the drivers bear it";
    }
    return "the voltage of your cards, "
        + (drive.leastMillivolts() > 0 ? trimmed(drive.leastMillivolts()) + " V to " : "at most ")
        + trimmed(drive.mostMillivolts())
        + " V";
  }

  private static String limit(FixtureProfile profile, Plug plug) {
    PlugLoad load = PlugLoad.of(profile);
    double all = load.milliamps() * plug.joins().size();
    long limit = Math.max(LEAST_LIMIT_MILLIAMPS, (long) Math.ceil(all * 1.2 / 10) * 10);
    return FirstPower.milliamps(limit)
        + (load.milliamps() > 0
            ? ": each wire draws at most "
                + FirstPower.milliamps(load.milliamps())
                + ", at "
                + trimmed(load.millivolts())
                + " V"
            : ": the profile states no load of a watch, and its own drivers may want more");
  }

  private static String trimmed(long thousandths) {
    return BigDecimal.valueOf(thousandths, 3).stripTrailingZeros().toPlainString();
  }
}
