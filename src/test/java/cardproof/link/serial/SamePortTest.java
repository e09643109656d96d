package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;

/** Which ports are looked at for a board that was unplugged, and above all which are not. */
class SamePortTest {
  private final List<SerialPortInfo> ports = new ArrayList<>();

  private static SerialPortInfo usb(String name, String socket, int product, String serial) {
    return new SerialPortInfo(
        name,
        "a board",
        socket,
        OptionalInt.of(0x2341),
        OptionalInt.of(product),
        serial,
        Optional.empty());
  }

  private SamePort of(String named, String... others) {
    return new SamePort(named, List.of(others), () -> List.copyOf(ports));
  }

  private void now(SerialPortInfo... there) {
    ports.clear();
    ports.addAll(List.of(there));
  }

  @Test
  void theSameDeviceUnderAnotherName() {
    now(usb("/dev/ttyACM0", "1-1", 0x43, "8573"));
    SamePort board = of("/dev/ttyACM0");
    now(usb("/dev/ttyACM1", "1-4", 0x43, "8573"), usb("/dev/ttyACM2", "1-1", 0x43, "9999"));
    assertThat(board.candidates()).containsExactly("/dev/ttyACM0", "/dev/ttyACM1");
  }

  @Test
  void withoutASerialNumberTheSocketDecides() {
    now(usb("/dev/ttyUSB0", "1-1", 0x7523, ""));
    SamePort board = of("/dev/ttyUSB0");
    now(usb("/dev/ttyUSB1", "1-1", 0x7523, ""), usb("/dev/ttyUSB2", "1-2", 0x7523, ""));
    assertThat(board.candidates()).containsExactly("/dev/ttyUSB0", "/dev/ttyUSB1");
  }

  @Test
  void anotherKindOfDeviceInTheSameSocketIsLeftAlone() {
    now(usb("/dev/ttyUSB0", "1-1", 0x7523, ""));
    SamePort board = of("/dev/ttyUSB0");
    now(usb("/dev/ttyUSB1", "1-1", 0x6001, ""));
    assertThat(board.candidates()).containsExactly("/dev/ttyUSB0");
  }

  @Test
  void whatIsNoUsbDeviceIsLookedForByNameAlone() {
    SerialPortInfo plain =
        new SerialPortInfo(
            "/dev/ttyS0", "", "", OptionalInt.empty(), OptionalInt.empty(), "", Optional.empty());
    now(plain);
    SamePort board = of("/dev/ttyS0", "/dev/fixture");
    now(
        new SerialPortInfo(
            "/dev/ttyS1", "", "", OptionalInt.empty(), OptionalInt.empty(), "", Optional.empty()));
    assertThat(board.candidates()).containsExactly("/dev/ttyS0", "/dev/fixture");
  }
}
