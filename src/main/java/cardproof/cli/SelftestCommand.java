package cardproof.cli;

import cardproof.card.Card;
import cardproof.files.Loaded;
import cardproof.fixture.DriveKind;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.LoopBack;
import cardproof.fixture.Plug;
import cardproof.fixture.selftest.PlugLoad;
import cardproof.fixture.selftest.SimulatedPlug;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Proves a fixture with loop-back plugs. */
@Command(
    name = "selftest",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description =
        "Proves the fixture itself with loop-back plugs, channel by channel, and measures its delay.",
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof selftest",
      "  cardproof selftest --fixture fixtures/plain-32.yaml --port /dev/ttyACM0",
      "  cardproof selftest --fault 'D[5] exchanged with D[6]' --fault 'driver[9] slow by 3 ms'"
    })
final class SelftestCommand implements Callable<Integer> {
  /** As wide as the plain board. */
  private static final int CHANNELS = 32;

  private final Supplier<Optional<Answers>> terminal;

  @Spec private CommandSpec spec;

  @Mixin private FixtureOptions fixture;

  @Mixin private FaultOptions faults;

  @Option(
      names = "--plug",
      paramLabel = "N",
      description =
          "only with this plug, which is on: ask for no other (default: all of the profile)")
  private Optional<Integer> only = Optional.empty();

  @Option(
      names = "--seed",
      paramLabel = "N",
      defaultValue = "1",
      description = "seed of the simulated bench (default: ${DEFAULT-VALUE})")
  private long seed;

  @Option(
      names = "--powered",
      description =
          "plug, supply and current limit have been checked, and no card is connected: do not ask")
  private boolean powered;

  @Option(names = "--json", description = "one JSON object on standard output instead of text")
  private boolean json;

  SelftestCommand() {
    this(Answers::atTerminal);
  }

  SelftestCommand(Supplier<Optional<Answers>> terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    Loaded<FixtureProfile> loaded = fixture.profile(CHANNELS);
    FixtureProfile profile = loaded.value();
    loaded.warnings().forEach(warning -> screen.err().println("warning: " + warning));
    refuseSinking(profile);
    List<Plug> plugs = plugs(profile);
    plugs.forEach(plug -> refuseOverload(profile, plug));
    Card plugged = SimulatedPlug.on(profile, plugs.get(0));
    FaultOptions.Planted planted = faults.read(plugged, profile);
    SelftestSetup setup =
        new SelftestSetup(
            profile,
            profile.simulated() ? "" : fixture.port(profile),
            plugs,
            seed,
            planted.card(),
            planted.line(),
            faults.names(),
            powered);
    return new SelftestRun(setup, screen, terminal.get()).run(json);
  }

  private List<Plug> plugs(FixtureProfile profile) {
    LoopBack loopBack = profile.loopBack();
    if (only.isEmpty()) {
      return loopBack.plugs();
    }
    int count = loopBack.plugs().size();
    if (only.get() < 1 || only.get() > count) {
      throw new RefusedException(
          new Problem(
              "--plug " + only.get(),
              "fixture '" + profile.name() + "' has " + Plural.of(count, "plug"),
              count == 1 ? "1" : "1 to " + count,
              ""));
    }
    return List.of(loopBack.plugs().get(only.get() - 1));
  }

  /** A drive of a plug may feed several watches; it must bear what they draw. */
  private static void refuseOverload(FixtureProfile profile, Plug plug) {
    long most = profile.drive().milliamps();
    double each = PlugLoad.of(profile).milliamps();
    for (int drive : plug.drives()) {
      int watches = plug.watchesOf(drive).cardinality();
      if (most > 0 && watches > 1 && watches * each > most) {
        throw new RefusedException(
            Problem.at(
                profile.loopBack().at(),
                "D"
                    + drive
                    + " would feed "
                    + watches
                    + " watches"
                    + " in plug "
                    + plug.number()
                    + ", "
                    + FirstPower.milliamps(watches * each),
                "no more than the " + FirstPower.milliamps(most) + " that a drive may carry",
                "List plugs with fewer watches to a drive under 'loop-back'"));
      }
    }
  }

  private static void refuseSinking(FixtureProfile profile) {
    if (profile.drive().kind() == DriveKind.SINK) {
      throw new RefusedException(
          Problem.at(
              profile.drive().at(),
              "the drives of fixture '" + profile.name() + "' sink",
              "drives that source: a watch behind a plug of wires reads 1 when its line is joined"
                  + " to the supply",
              "Use high-side drivers, and kind: source"));
    }
  }
}
