package cardproof.cli;

import cardproof.card.Card;
import cardproof.files.FixtureFile;
import cardproof.files.Loaded;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;

/**
 * Which fixture a command works with: the simulated bench unless a port or a profile says
 * otherwise.
 */
final class FixtureOptions {
  /** As wide as the protocol allows; what a board really has, it says itself. */
  private static final int ANY_WIDTH = 255;

  @Option(
      names = "--fixture",
      paramLabel = "FILE",
      description =
          "profile of the fixture; the simulated bench when neither this nor --port is given")
  private Path file;

  @Option(
      names = "--port",
      paramLabel = "PORT",
      description =
          "serial port of the fixture, such as /dev/ttyACM0; 'cardproof ports' lists them")
  private String port;

  /** The fixture's profile, and the files it came from. */
  Loaded<FixtureProfile> profile(Card card) {
    if (file == null && port == null) {
      return builtIn(
          FixtureProfile.simulatedBench(HookUp.drivesNeeded(card), HookUp.watchesNeeded(card)));
    }
    if (file == null) {
      return builtIn(FixtureProfile.serialBoard(ANY_WIDTH, ANY_WIDTH));
    }
    return profile();
  }

  /**
   * The profile where no card says how wide the fixture must be.
   *
   * @param channels drives and watches of the simulated bench when nothing is named
   */
  Loaded<FixtureProfile> profile(int channels) {
    if (file == null && port != null) {
      throw refused(
          "--port " + port,
          "nothing says what the fixture on that port has",
          "--fixture FILE, its profile",
          "'cardproof schema fixture' prints what may stand in one");
    }
    return file == null ? builtIn(FixtureProfile.simulatedBench(channels, channels)) : profile();
  }

  private Loaded<FixtureProfile> profile() {
    Loaded<FixtureProfile> loaded = FixtureFile.read(file);
    if (loaded.value().simulated() && port != null) {
      throw refused(
          "--port " + port,
          "fixture '" + loaded.value().name() + "' is simulated and has no port",
          "a profile of kind serial",
          "Leave --port out, or name the profile of the board on that port");
    }
    return loaded;
  }

  /** The port that a serial fixture is on. */
  String port(FixtureProfile profile) {
    return Optional.ofNullable(port)
        .orElseThrow(
            () ->
                refused(
                    "--fixture " + file,
                    "fixture '" + profile.name() + "' is on a serial port, and no port is named",
                    "--port PORT",
                    "'cardproof ports' lists what is there"));
  }

  private static Loaded<FixtureProfile> builtIn(FixtureProfile profile) {
    return new Loaded<>(profile, List.of(), List.of());
  }

  private static RefusedException refused(String where, String found, String wanted, String next) {
    return new RefusedException(new Problem(where, found, wanted, next));
  }
}
