package cardproof.cli;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Option;

/** Whether a run goes on by itself when its board was gone and is back. */
final class ReconnectOptions {
  private static final Pattern TIME = Pattern.compile("(\\d{1,6}) ?(s|min)");
  private static final String NAME = "--reconnect";
  private static final String OTHER = "--other-port";

  @Option(
      names = NAME,
      paramLabel = "TIME",
      description =
          "where the line is lost or the board restarts, wait this long for the same board, such as"
              + " '30 s', and drive the card again from where what it keeps is known, without asking"
              + " (default: end, and say how to go on)")
  private String time;

  @Option(
      names = OTHER,
      paramLabel = "PORT",
      description =
          "a port on which the board may be looked for too when it is back; may be repeated. Ports of"
              + " the same USB device are looked at in any case, all others never")
  private List<String> others = List.of();

  /** How long, and where. Empty where nothing is to be waited for. */
  Optional<Wish> wish() {
    if (time == null) {
      if (!others.isEmpty()) {
        throw refused(OTHER, "nothing waits for a board that is gone", NAME + " TIME with it");
      }
      return Optional.empty();
    }
    Matcher matcher = TIME.matcher(time.strip());
    if (!matcher.matches() || Long.parseLong(matcher.group(1)) == 0) {
      throw refused(NAME, "'" + time + "' is no time to wait", "such as '30 s' or '2 min'");
    }
    TimeUnit unit = matcher.group(2).equals("s") ? TimeUnit.SECONDS : TimeUnit.MINUTES;
    return Optional.of(new Wish(unit.toNanos(Long.parseLong(matcher.group(1))), others));
  }

  /**
   * What was asked for.
   *
   * @param waitNs how long a board may be gone
   * @param others ports to be looked at beside its own
   */
  record Wish(long waitNs, List<String> others) {}

  private static RefusedException refused(String where, String found, String wanted) {
    return new RefusedException(new Problem(where, found, wanted, ""));
  }
}
