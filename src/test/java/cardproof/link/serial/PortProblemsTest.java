package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.text.Problem;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;

class PortProblemsTest {
  private final PortProblems problems = new PortProblems("/dev/ttyACM0");

  @Test
  @DisabledOnOs(value = OS.WINDOWS, disabledReason = "port names there are no paths")
  void missingNamesTheNearestAndAll() {
    List<String> known = List.of("/dev/ttyS0", "/dev/ttyUSB0");
    assertThat(new PortProblems("ttyUSB1").missing(known).toString())
        .isEqualTo(
            "ttyUSB1: there is no such port; wanted a serial port of this machine. Perhaps you mean"
                + " /dev/ttyUSB0. Known: /dev/ttyS0, /dev/ttyUSB0.");
    assertThat(new PortProblems("kettle").missing(known).next())
        .isEqualTo("Known: /dev/ttyS0, /dev/ttyUSB0");
    assertThat(problems.missing(known).next())
        .as("a port of another kind is no slip of fingers")
        .isEqualTo("Known: /dev/ttyS0, /dev/ttyUSB0");
    assertThat(problems.missing(List.of("/dev/ttyACM1", "/dev/ttyS0")).next())
        .isEqualTo("Perhaps you mean /dev/ttyACM1. Known: /dev/ttyACM1, /dev/ttyS0");
    assertThat(problems.missing(List.of()).next()).contains("plug the board in");
  }

  @Test
  void notPermittedNamesTheGroupAndTheCommand() {
    // "dialout" and mode 0660: Debian's udev rule for serial ports, 50-udev-default.rules.
    DeviceAccess access = new DeviceAccess("/dev/ttyACM0", "root", "dialout", "rw-rw----");
    Problem problem = problems.notPermitted(access, "ada");
    assertThat(problem.found()).contains("user ada may not open it", "group dialout", "rw-rw----");
    assertThat(problem.next()).contains("sudo usermod -aG dialout ada", "log out");
  }

  @Test
  void joiningAGroupIsNotAdvisedWhereItWouldNotHelp() {
    // "tty" and mode 0620 are what grantpt(3) sets: the group may write and not read.
    assertThat(new DeviceAccess("/dev/x", "root", "tty", "rw--w----").remedy("ada"))
        .contains("udev rule")
        .doesNotContain("usermod");
    assertThat(new DeviceAccess("/dev/x", "root", "root", "rw-rw----").remedy("ada"))
        .contains("udev rule")
        .doesNotContain("usermod");
    assertThat(new DeviceAccess("/dev/x", "", "", "").remedy("ada")).contains("account");
  }

  @Test
  void everyProblemSaysWhereAndWhatToDoNext() {
    DeviceAccess access = new DeviceAccess("/dev/ttyACM0", "root", "dialout", "rw-rw----");
    assertThat(
            List.of(
                problems.missing(List.of()),
                problems.dangling("/dev/ttyACM1", List.of()),
                problems.notASerialPort("a directory"),
                problems.busy(""),
                problems.notPermitted(access, "ada"),
                problems.notOpened(99),
                problems.lost("tried"),
                problems.stalled(1000),
                problems.closed()))
        .allSatisfy(
            problem -> {
              assertThat(problem.where()).isEqualTo("/dev/ttyACM0");
              assertThat(problem.found()).isNotBlank();
              assertThat(problem.next()).isNotBlank().doesNotEndWith(".");
            });
  }

  @Test
  void windowsErrorsAreTranslated() {
    // Numbers of "System Error Codes (0-499)" in the Windows documentation, from memory.
    assertThat(WindowsError.of(5, problems)).isEqualTo(problems.busy(""));
    assertThat(WindowsError.of(32, problems)).isEqualTo(problems.busy(""));
    assertThat(WindowsError.of(2, problems)).isEqualTo(problems.missing(List.of()));
    assertThat(WindowsError.of(1450, problems).found()).contains("1450");
  }
}
