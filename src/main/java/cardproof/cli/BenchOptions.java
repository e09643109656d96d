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

/** What only the simulated bench can do: show every edge, and keep its relays to the wall clock. */
final class BenchOptions {
  private static final String VCD = "--vcd";
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

  @Option(names = "--overwrite", description = "let --vcd replace an earlier VCD file")
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
    if (file == null && (overwrite || !nets.isEmpty())) {
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

  private void refuseOnPort() {
    if (file != null) {
      throw refused(
          VCD,
          "a fixture on a port tells when a line first and last changed, and no edges between",
          "the simulated bench",
          "Leave --port out, or leave --vcd out");
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
