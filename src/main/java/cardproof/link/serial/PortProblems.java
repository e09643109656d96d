package cardproof.link.serial;

import cardproof.text.Nearest;
import cardproof.text.Problem;
import java.util.List;

/**
 * What a user is told when a port cannot be used.
 *
 * @param port the name as the user gave it
 */
record PortProblems(String port) {
  private static final String FREE_PORT = "a port that nothing else uses";
  private static final String SERIAL_PORT = "a serial port of this machine";

  Problem missing(List<String> known) {
    String next =
        known.isEmpty()
            ? "No serial port is there at all: plug the board in, and see that its cable carries"
                + " data and not only power"
            : nearest(known) + "Known: " + String.join(", ", known);
    return new Problem(port, "there is no such port", SERIAL_PORT, next);
  }

  Problem dangling(String target, List<String> known) {
    String next = "Plug the board in, or name another port";
    return new Problem(
        port,
        "it is a link to " + target + ", which is not there",
        SERIAL_PORT,
        known.isEmpty() ? next : next + ". Known: " + String.join(", ", known));
  }

  Problem notASerialPort(String kind) {
    return new Problem(port, "it is " + kind, SERIAL_PORT, "List the ports and name one of them");
  }

  /**
   * @param holder who has it, such as {@code process 41 (screen)}; empty where that is unknown
   */
  Problem busy(String holder) {
    String by = holder.isEmpty() ? "another program" : holder;
    return new Problem(
        port, by + " has it open", FREE_PORT, "End that program, or name another port");
  }

  Problem notPermitted(DeviceAccess access, String user) {
    return new Problem(
        port,
        "user " + user + " may not open it: " + access.summary(),
        "permission to read and write",
        access.remedy(user));
  }

  Problem notOpened(int errorCode) {
    return new Problem(
        port,
        "the system did not open it (error " + errorCode + ")",
        SERIAL_PORT,
        "Unplug the board, plug it in again, and look into the system's log for its name");
  }

  Problem lost(String seen) {
    return new Problem(
        port,
        "the device is gone: " + seen,
        "",
        "Check the cable and the board's power, then start again; the fixture drops its drives by"
            + " itself");
  }

  Problem stalled(long limitMs) {
    return new Problem(
        port,
        "the line has taken nothing for " + limitMs + " ms",
        "a device that reads",
        "Reset the board, and check that it is the fixture and runs its program");
  }

  Problem broken(Throwable why) {
    return new Problem(
        port,
        "this program's own part of the line failed (" + why + ")",
        "",
        "This is a defect of cardproof; its details are in the debug log, please report them");
  }

  Problem closed() {
    return new Problem(port, "it was closed by this program", "an open port", "Open it again");
  }

  /** Compared as paths: a user may leave {@code /dev/} out. */
  private String nearest(List<String> known) {
    String path = DeviceFile.isNamedByPath() ? new DeviceFile(port).fullName() : port;
    List<String> sameKind =
        known.stream().filter(name -> kind(name).equalsIgnoreCase(kind(path))).toList();
    return Nearest.to(path, sameKind).map(name -> "Perhaps you mean " + name + ". ").orElse("");
  }

  /** Ports of other letters are other devices, however alike their names look. */
  private static String kind(String name) {
    return name.replaceFirst("\\d+$", "");
  }
}
