package cardproof.link.serial;

import cardproof.text.Problem;
import java.util.Optional;
import java.util.OptionalInt;

/**
 * One serial port of this machine.
 *
 * @param name what to pass to {@link SerialWire#open}, such as {@code /dev/ttyACM0} or {@code COM3}
 * @param description what the device calls itself
 * @param location where it is plugged in, as the system writes it; empty where that is unknown
 * @param vendorId of a USB device
 * @param productId of a USB device
 * @param serialNumber of a USB device, as it says itself; empty where that is unknown
 * @param refusal why it cannot be opened now; empty when nothing speaks against it
 */
public record SerialPortInfo(
    String name,
    String description,
    String location,
    OptionalInt vendorId,
    OptionalInt productId,
    String serialNumber,
    Optional<Problem> refusal) {}
