package cardproof.cli;

import cardproof.log.RunEnd;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;

/** Tells how to go on with a run that ended early. */
final class HowToGoOn {
  /** What tripped wants to be looked at first, and the whole plan again after it. */
  private static final Set<RunEnd> CAN_GO_ON =
      EnumSet.of(RunEnd.INTERRUPTED, RunEnd.LINK_LOST, RunEnd.STOPPED, RunEnd.FAILED);

  private HowToGoOn() {}

  static boolean can(RunEnd end) {
    return CAN_GO_ON.contains(end);
  }

  /**
   * @param port of a serial fixture; else empty
   */
  static Optional<String> sentence(RunEnd end, String plan, long run, Path log, String port) {
    if (!can(end)) {
      return Optional.empty();
    }
    boolean beside = BenchLogs.beside(Path.of(plan), null).normalize().equals(log.normalize());
    return Optional.of(
        "Go on with it: cardproof run "
            + plan
            + " --resume "
            + run
            + (port.isEmpty() ? "" : " --port " + port)
            + (beside ? "" : " --log " + log));
  }
}
