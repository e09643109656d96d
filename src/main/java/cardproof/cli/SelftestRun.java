package cardproof.cli;

import cardproof.fixture.HookUp;
import cardproof.fixture.Plug;
import cardproof.fixture.selftest.PlugCard;
import cardproof.fixture.selftest.PlugEnding;
import cardproof.fixture.selftest.SelfTest;
import cardproof.fixture.selftest.SelfTestResult;
import cardproof.fixture.selftest.SimulatedPlug;
import cardproof.link.LinkException;
import cardproof.link.Wire;
import cardproof.link.serial.SerialPorts;
import cardproof.link.serial.SerialWire;
import cardproof.link.serial.Signals;
import cardproof.run.StopSignal;
import cardproof.sim.SimSettings;
import cardproof.sim.SimulatedBench;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.security.SecureRandom;
import java.util.Locale;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;

/** Takes a fixture through its plugs, with the operator, and says what came of it. */
final class SelftestRun {
  private static final String UNIT = "plug";

  private final SelftestSetup setup;
  private final Screen screen;
  private final Optional<Answers> answers;
  private final StopSignal stop = new StopSignal();

  /** While a person is asked the drives are down, and nobody looks at {@link #stop}. */
  private volatile boolean asking;

  SelftestRun(SelftestSetup setup, Screen screen, Optional<Answers> answers) {
    this.setup = setup;
    this.screen = screen;
    this.answers = answers;
  }

  /** Runs, prints, and returns the exit code. */
  int run(boolean json) {
    if (!setup.onBench()) {
      SerialPorts.check(setup.port());
      refuseWithoutTerminal();
      if (!setup.powered() && !confirmed()) {
        screen.err().println("Nothing was driven.");
        return ExitCode.STOPPED;
      }
    }
    Signals.onStop(this::stopped);
    SelfTest test = new SelfTest(setup.profile(), () -> stop.reason().isPresent());
    Optional<PlugEnding> ending = Optional.empty();
    try {
      if (setup.onBench()) {
        onBench(test);
      } else {
        onPort(test);
      }
    } catch (PlugEnding early) {
      ending = Optional.of(early);
    } catch (LinkException lost) {
      ending = Optional.of(PlugEnding.lost(lost));
    }
    ending.ifPresent(early -> screen.err().println(early.problem()));
    if (json) {
      screen.out().println(SelftestJson.of(setup, test, ending));
    } else {
      new SelftestReport(setup, screen).print(test, ending);
    }
    screen.out().flush();
    return ending.map(SelftestRun::exitCode).orElseGet(() -> exitCode(test.result()));
  }

  private void onBench(SelfTest test) {
    for (Plug plug : setup.plugs()) {
      try (Wire wire = bench(plug)) {
        Optional<String> wrong = test.through(plug, wire, new SplittableRandom(setup.seed()));
        if (wrong.isPresent()) {
          test.giveUp(wrong.get());
          return;
        }
      }
    }
  }

  private void onPort(SelfTest test) {
    try (Wire wire = SerialWire.open(setup.port(), setup.profile().baud())) {
      for (Plug plug : setup.plugs()) {
        if (plug != setup.plugs().get(0)) {
          SelftestPrompt.next(plug).forEach(screen.err()::println);
          goOn("Enter when that is done, or 'stop': ");
        }
        if (!through(test, plug, wire)) {
          return;
        }
      }
    }
  }

  /** As often as the operator puts the plug right; whether it came to be right. */
  private boolean through(SelfTest test, Plug plug, Wire wire) {
    RandomGenerator random = new SecureRandom();
    while (true) {
      Optional<String> wrong = test.through(plug, wire, random);
      if (wrong.isEmpty()) {
        return true;
      }
      if (answers.isEmpty() || setup.powered() && setup.plugs().size() == 1) {
        test.giveUp(wrong.get());
        return false;
      }
      screen.err().println("The drives are down: " + wrong.get() + ".");
      screen.err().println("Wanted: " + plug.wiring());
      if (!ask("Put it right and press Enter, or 'stop' to leave it: ")) {
        test.giveUp(wrong.get());
        return false;
      }
    }
  }

  private SimulatedBench bench(Plug plug) {
    HookUp hookUp = HookUp.of(new PlugCard(setup.profile()).card(), setup.profile());
    return new SimulatedBench(
        SimulatedPlug.on(setup.profile(), plug),
        hookUp.lineOfDrive(),
        hookUp.lineOfWatch(),
        new SimSettings(
            setup.seed(),
            UNIT,
            setup.faults(),
            setup.profile().slots(),
            setup.profile().samplingNs(),
            0,
            setup.lineFaults(),
            setup.profile().name()));
  }

  private void refuseWithoutTerminal() {
    if (answers.isPresent() || setup.powered() && setup.plugs().size() == 1) {
      return;
    }
    throw new RefusedException(
        new Problem(
            "selftest",
            "a real fixture is about to be driven, and there is no terminal to ask at",
            "somebody's word that plug, power and current limit are right",
            "Check them, then say so with --powered, and which one plug is on with --plug N"));
  }

  private boolean confirmed() {
    SelftestPrompt.checks(setup.profile(), setup.plugs().get(0)).forEach(screen.err()::println);
    screen.err().flush();
    return answers
        .orElseThrow()
        .ask("Is everything as above, and the fixture powered? (yes/no) ")
        .filter(answer -> answer.strip().toLowerCase(Locale.ROOT).equals("yes"))
        .isPresent();
  }

  private void goOn(String question) {
    if (!ask(question)) {
      throw PlugEnding.stopped(setup.port());
    }
  }

  private boolean ask(String question) {
    screen.err().flush();
    asking = true;
    try {
      return answers.orElseThrow().ask(question).filter(answer -> answer.isBlank()).isPresent();
    } finally {
      asking = false;
    }
  }

  private void stopped(String why) {
    stop.request(why);
    if (asking) {
      screen.err().println();
      screen.err().println("Stopped between two plugs; the drives are down.");
      screen.err().flush();
      System.exit(ExitCode.STOPPED);
    }
  }

  private static int exitCode(PlugEnding ending) {
    return switch (ending.kind()) {
      case STOPPED -> ExitCode.STOPPED;
      case LINK -> ExitCode.LINK;
      case TRIPPED -> ExitCode.TRIPPED;
    };
  }

  private static int exitCode(SelfTestResult result) {
    return result.passed() ? ExitCode.PASSED : ExitCode.FAILED;
  }
}
