package cardproof.cli;

import cardproof.fixture.FixtureProfile;
import cardproof.link.HelloReply;
import cardproof.link.HostLink;
import cardproof.link.LinkException;
import cardproof.link.Wire;
import cardproof.link.serial.SerialPortInfo;
import cardproof.link.serial.SerialPorts;
import cardproof.link.serial.SerialWire;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.Console;
import java.io.PrintWriter;
import java.security.SecureRandom;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** Lists serial ports; talks to one only when asked to, since not every device takes that well. */
@Command(
    name = "ports",
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    description =
        "Lists serial ports and which may be opened; with --ask says what answers on one.",
    footerHeading = "%nExample:%n",
    footer = "  cardproof ports --ask /dev/ttyACM0")
final class PortsCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Option(
      names = "--ask",
      paramLabel = "PORT",
      description = "open this port and ask what is there; some boards restart when opened")
  private String ask;

  @Option(names = "--yes", description = "do not ask before talking to the port")
  private boolean yes;

  @Option(
      names = "--baud",
      paramLabel = "N",
      description = "speed to ask at (default: ${DEFAULT-VALUE})")
  private int baud = FixtureProfile.DEFAULT_BAUD;

  @Override
  public Integer call() {
    Screen screen = Screen.of(spec.commandLine());
    return ask == null ? list(screen.out()) : ask(screen);
  }

  private static int list(PrintWriter out) {
    List<SerialPortInfo> ports = SerialPorts.list();
    if (ports.isEmpty()) {
      out.println("No serial ports. Plug the fixture in, and look again.");
    }
    for (SerialPortInfo port : ports) {
      out.printf(
          "%-20s %-11s %s%s%n",
          port.name(),
          port.refusal().isPresent() ? "closed" : "may be opened",
          port.description(),
          port.vendorId().isPresent() && port.productId().isPresent()
              ? String.format(
                  Locale.ROOT,
                  "  (USB %04x:%04x)",
                  port.vendorId().getAsInt(),
                  port.productId().getAsInt())
              : "");
      port.refusal().ifPresent(problem -> out.println("    " + problem));
    }
    out.flush();
    return ExitCode.PASSED;
  }

  private int ask(Screen screen) {
    SerialPorts.check(ask);
    if (!yes && !consent()) {
      screen.err().println("Nothing was sent.");
      return ExitCode.STOPPED;
    }
    try (Wire wire = SerialWire.open(ask, baud);
        HostLink link = HostLink.connect(wire, new SecureRandom())) {
      HelloReply hello = link.hello();
      screen
          .out()
          .printf(
              "%s: %s, firmware %s, protocol %d.%d%n  %d drives, %d watches, %d slots, sampled every %.1f us%n",
              ask,
              hello.board(),
              hello.firmware(),
              hello.major(),
              hello.minor(),
              hello.drives(),
              hello.watches(),
              hello.slots(),
              hello.periodNs() / 1e3);
      return ExitCode.PASSED;
    } catch (LinkException silent) {
      screen.err().println(silent.problem());
      return ExitCode.LINK;
    }
  }

  private boolean consent() {
    Console console = System.console();
    if (console == null) {
      throw new RefusedException(
          new Problem(
              "--ask " + ask,
              "talking to a port needs somebody's consent, and there is no terminal to ask at",
              "",
              "Add --yes when the device on it takes a few bytes well"));
    }
    String answer =
        console.readLine(
            "Opening %s may restart the device on it, and sends it a few bytes. Go on? (yes/no) ",
            ask);
    return answer != null && answer.strip().toLowerCase(Locale.ROOT).equals("yes");
  }
}
