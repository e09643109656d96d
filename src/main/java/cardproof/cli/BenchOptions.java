package cardproof.cli;

import cardproof.card.Card;
import cardproof.fixture.FixtureProfile;
import cardproof.report.NetChoice;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Every edge in a file, be it of the simulated card or as the fixture sees it; and real time. */
final class BenchOptions {
  private static final String VCD = "--vcd";
  private static final String CAPTURE = "--capture";
  private static final String NETS = "--vcd-nets";

  @Option(
      names = VCD,
      paramLabel = "FILE",
      description =
          "write every edge on the simulated card to this file, a Value Change Dump"
              + " (IEEE 1364-2005) for any viewer of waveforms")
  private Path file;

  @Option(
      names = NETS,
      paramLabel = "NETS",
      description =
          "nets of the card's wiring to be shown with its lines, such as 'C[*],BIT[3].odd', where"
              + " * stands for anything; may be repeated (default: the lines alone)")
  private List<String> nets = List.of();

  @Option(
      names = CAPTURE,
      paramLabel = "FILE",
      description =
          "ask the fixture for every edge it sees, and write them to this file, a Value Change Dump"
              + " too; any fixture that keeps edges will do. Each vector is then alone in the fixture, so"
              + " that a run takes longer")
  private Path capture;

  @Option(
      names = "--overwrite",
      description = "let --vcd and --capture replace an earlier VCD file")
  private boolean overwrite;

  @Option(
      names = "--real-time",
      description = "let the simulated card take as long as its relays would")
  private boolean realTime;

  boolean realTime() {
    return realTime;
  }

  /**
   * @throws RefusedException where the fixture is no simulated one, or the file or a net will not
   *     do
   */
  Optional<WaveRequest> wave(Card card, FixtureProfile profile) {
    if (!profile.simulated()) {
      refuseOnPort();
    }
    boolean nothing = file == null && (capture == null || !nets.isEmpty());
    if (nothing && (overwrite || !nets.isEmpty())) {
      throw refused(
          overwrite ? "--overwrite" : NETS,
          "no file is asked for that it could be about",
          VCD + " FILE with it",
          "");
    }
    if (file == null) {
      return Optional.empty();
    }
    WaveFile.check(file, overwrite);
    return Optional.of(new WaveRequest(file, overwrite, NetChoice.of(card, NETS, nets)));
  }

  /**
   * A wave of what the fixture sees; whether it can is known when it has answered.
   *
   * @throws RefusedException where the file will not do
   */
  Optional<WaveRequest> capture() {
    if (capture == null) {
      return Optional.empty();
    }
    if (capture.equals(file)) {
      throw refused(CAPTURE, "it names the file of " + VCD + " too", "a file of its own", "");
    }
    WaveFile.check(capture, overwrite);
    return Optional.of(new WaveRequest(capture, overwrite, List.of()));
  }

  private void refuseOnPort() {
    if (file != null) {
      throw refused(
          VCD,
          "a fixture on a port cannot tell what goes on inside of a card",
          "the simulated bench",
          "Write --capture FILE for every edge that the fixture itself sees, or leave --port out");
    }
    if (realTime) {
      throw refused(
          "--real-time",
          "a real card takes its own time anyway",
          "the simulated bench",
          "Leave --port out, or leave --real-time out");
    }
  }

  private static RefusedException refused(String where, String found, String wanted, String next) {
    return new RefusedException(new Problem(where, found, wanted, next));
  }
}
