package cardproof.log;

import java.util.Objects;

/**
 * The fixture a run was made on.
 *
 * @param board name of its profile
 * @param firmware as it answered the hello
 * @param boardId as it answered the hello; all 64 bits count
 * @param samplingNs its sampling period
 * @param port as the user gave it; empty for the simulated bench
 */
public record FixtureUsed(
    String board, String firmware, long boardId, long samplingNs, String port) {
  public FixtureUsed {
    Objects.requireNonNull(board);
    Objects.requireNonNull(firmware);
    Objects.requireNonNull(port);
  }
}
