package cardproof.cli;

import java.nio.file.Path;

/** Where the rotating debug log lies. Must be placed before the first logger is asked for. */
final class DebugLog {
  private static final String PROPERTY = "cardproof.debugLog";
  private static final String ENDING = ".log";

  private DebugLog() {}

  /** Tells {@code logback.xml} the place, without its ending. */
  static void place() {
    String file = file().toString();
    System.setProperty(PROPERTY, file.substring(0, file.length() - ENDING.length()));
  }

  static Path file() {
    String state = System.getenv("XDG_STATE_HOME");
    Path base =
        state == null || state.isEmpty()
            ? Path.of(System.getProperty("user.home"), ".local", "state")
            : Path.of(state);
    return base.resolve("cardproof").resolve("debug" + ENDING);
  }
}
