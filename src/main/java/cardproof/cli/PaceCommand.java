package cardproof.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Supplier;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Spec;

/** The clock that settle times allow, measured and proved. */
@Command(
    name = "pace",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description = {
      "Says which clock the settle times of a unit allow.",
      "Alone it reads the log. With --measure it runs the plan three times, takes the slowest"
          + " transitions, and repeats them over several power cycles; with --prove it samples them at a"
          + " dwell, again and again. Both write a plan of those transitions beside the plan, and every"
          + " vector into the log."
    },
    footerHeading = "%nExample:%n",
    footer = {
      "  cardproof pace vectors/sum/bring-up.yaml --measure --unit 03",
      "  cardproof pace vectors/sum/bring-up.yaml --unit 03 --receiver 40ms",
      "  cardproof pace vectors/sum/bring-up.yaml --prove 275ms --unit 03"
    })
final class PaceCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;
  @Mixin private PaceOptions options;
  @ArgGroup private What what = new What();

  private static final class What {
    @Option(names = "--measure", description = "measure: three runs, then the slowest transitions")
    private boolean measure;

    @Option(
        names = "--prove",
        paramLabel = "TIME",
        converter = TimeOption.class,
        description = "sample the slowest transitions at this dwell, such as 275ms")
    private Optional<TimeOption.Us> prove = Optional.empty();
  }

  @Option(
      names = "--cycles",
      paramLabel = "N",
      defaultValue = "5",
      description = "power cycles to measure over (default: ${DEFAULT-VALUE})")
  private int cycles;

  @Option(
      names = "--share",
      paramLabel = "PERCENT",
      defaultValue = "95",
      description =
          "share of a run's settles that its longest is to be above: 95 takes 59 repeats, 99 takes 299,"
              + " 99.9 takes 2995 (default: ${DEFAULT-VALUE})")
  private double sharePercent;

  @Option(
      names = "--guard",
      paramLabel = "PERCENT",
      defaultValue = "10",
      description = "added for a hot coil and a low supply, a guess (default: ${DEFAULT-VALUE})")
  private double guardPercent;

  @Option(
      names = "--receiver",
      paramLabel = "TIME",
      converter = TimeOption.class,
      description = "what the receiving card needs: its set-up and hold time")
  private Optional<TimeOption.Us> receiver = Optional.empty();

  @Option(
      names = "--times",
      paramLabel = "N",
      defaultValue = "299",
      description =
          "with --prove: how often each transition is sampled; 299 without failure say at most 1 %"
              + " (default: ${DEFAULT-VALUE})")
  private int times;

  @Option(
      names = "--transitions",
      paramLabel = "N",
      description = "how many of the slowest transitions (default: 10, with --prove 3)")
  private Optional<Integer> transitions = Optional.empty();

  @Option(names = "--json", description = "one JSON object on standard output instead of text")
  private boolean json;

  private final Supplier<Optional<Answers>> answers;

  PaceCommand() {
    this(Answers::atTerminal);
  }

  PaceCommand(Supplier<Optional<Answers>> answers) {
    this.answers = answers;
  }

  @Override
  public Integer call() {
    check("--cycles", cycles >= 1, "a number from 1 on");
    check("--share", sharePercent >= 50 && sharePercent <= 99.9, "a percentage from 50 to 99.9");
    check("--guard", guardPercent >= 0 && guardPercent <= 500, "a percentage from 0 to 500");
    check("--times", times >= 1, "a number from 1 on");
    check("--transitions", transitions.orElse(1) >= 1, "a number from 1 on");
    UnitName.checked(options.unit);
    PaceWishes wishes =
        new PaceWishes(
            cycles,
            sharePercent / 100,
            guardPercent,
            receiver.map(TimeOption.Us::value).orElse(0L),
            times,
            transitions,
            json);
    PaceWork work = new PaceWork(options, wishes, Screen.of(spec.commandLine()), answers);
    if (what.measure) {
      return work.measure();
    }
    return what.prove.isPresent() ? work.prove(what.prove.get().value()) : work.read();
  }

  private void check(String option, boolean good, String wanted) {
    if (!good) {
      throw new ParameterException(spec.commandLine(), option + " needs " + wanted);
    }
  }
}
