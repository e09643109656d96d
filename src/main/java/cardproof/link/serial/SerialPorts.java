package cardproof.link.serial;

import cardproof.link.LinkException;
import cardproof.text.Problem;
import com.fazecast.jSerialComm.SerialPort;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** What serial ports this machine has; thread-safe. */
public final class SerialPorts {
  /** jSerialComm's way to say that it does not know. */
  private static final String NO_LOCATION = "0-0";

  private static final String UNKNOWN = "Unknown";

  private SerialPorts() {}

  /** All ports by name. Opens none of them and sends nothing. */
  public static List<SerialPortInfo> list() {
    SerialLibrary.load();
    return Arrays.stream(SerialPort.getCommPorts())
        .map(SerialPorts::describe)
        .sorted(Comparator.comparing(SerialPortInfo::name))
        .toList();
  }

  static List<String> names() {
    return list().stream().map(SerialPortInfo::name).toList();
  }

  private static SerialPortInfo describe(SerialPort port) {
    String name = DeviceFile.isNamedByPath() ? port.getSystemPortPath() : port.getSystemPortName();
    return new SerialPortInfo(
        name,
        port.getPortDescription(),
        port.getPortLocation().startsWith(NO_LOCATION) ? "" : port.getPortLocation(),
        id(port.getVendorID()),
        id(port.getProductID()),
        UNKNOWN.equalsIgnoreCase(port.getSerialNumber()) ? "" : port.getSerialNumber(),
        new DeviceFile(name).refusal(List.of()));
  }

  /** Not a USB device: -1. */
  private static OptionalInt id(int id) {
    return id < 0 ? OptionalInt.empty() : OptionalInt.of(id);
  }

  /**
   * Looks whether a port is there and may be opened, without opening it.
   *
   * @param port a name of {@link #list}, or a link to such a file
   * @throws LinkException when it is missing, in use, not permitted or no serial port
   */
  public static void check(String port) {
    SerialLibrary.load();
    Optional<Problem> refusal = new DeviceFile(port).refusal(names());
    if (refusal.isPresent()) {
      throw new LinkException(refusal.get());
    }
  }
}
