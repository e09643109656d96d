package cardproof.link.serial;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;

/**
 * Where the board of a port may be found after it was gone: under the name it had, under names that
 * the user gave, and wherever the same USB device has come back. No other port is ever named, since
 * opening one restarts many boards. One thread.
 *
 * <p>The same device is one with the same vendor, product and serial number; where devices of that
 * kind have no serial number, with the same vendor and product in the same socket.
 */
public final class SamePort {
  private final String named;
  private final List<String> others;
  private final Supplier<List<SerialPortInfo>> ports;
  private final Optional<SerialPortInfo> device;

  SamePort(String named, List<String> others, Supplier<List<SerialPortInfo>> ports) {
    this.named = named;
    this.others = List.copyOf(others);
    this.ports = ports;
    String real = new DeviceFile(named).realName();
    this.device = ports.get().stream().filter(port -> port.name().equals(real)).findFirst();
  }

  /**
   * Remembers which device is at {@code named} now.
   *
   * @param others names under which it may be looked for as well
   */
  public static SamePort of(String named, List<String> others) {
    return new SamePort(named, others, SerialPorts::list);
  }

  /** Names to try, the most likely first; some may not be there, or be of another board. */
  public List<String> candidates() {
    Set<String> names = new LinkedHashSet<>();
    names.add(named);
    names.addAll(others);
    device.ifPresent(
        then ->
            ports.get().stream()
                .filter(port -> isSame(then, port))
                .map(SerialPortInfo::name)
                .forEach(names::add));
    return List.copyOf(names);
  }

  private static boolean isSame(SerialPortInfo then, SerialPortInfo now) {
    boolean kind =
        then.vendorId().isPresent()
            && then.vendorId().equals(now.vendorId())
            && then.productId().equals(now.productId())
            && then.serialNumber().equals(now.serialNumber());
    boolean told = !then.serialNumber().isEmpty();
    boolean socket = !then.location().isEmpty() && then.location().equals(now.location());
    return kind && (told || socket);
  }
}
