package cardproof.link.serial;

import cardproof.link.LinkException;
import cardproof.text.Problem;
import com.fazecast.jSerialComm.SerialPort;
import com.fazecast.jSerialComm.SerialPortInvalidPortException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** From a name to an open jSerialComm port, or to a problem that says what to do. */
final class PortOpener {
  private static final Logger LOG = LoggerFactory.getLogger(PortOpener.class);

  /** The shortest that jSerialComm can do on POSIX systems. */
  private static final int READ_ROUND_MS = 100;

  private PortOpener() {}

  static SerialPort open(String name, LineSettings settings) {
    SerialPorts.check(name);
    SerialPort port = find(name);
    configure(port, settings);
    if (!port.openPort()) {
      LOG.debug("{}: error {} at {}", name, port.getLastErrorCode(), port.getLastErrorLocation());
      throw new LinkException(failure(name, port.getLastErrorCode()));
    }
    LOG.debug("{}: open as {} with {}", name, port.getSystemPortPath(), settings);
    return port;
  }

  /**
   * A new object every time: jSerialComm resolves a link once, and a board may come back renamed.
   */
  private static SerialPort find(String name) {
    try {
      String path = DeviceFile.isNamedByPath() ? new DeviceFile(name).fullName() : name;
      return SerialPort.getCommPort(path);
    } catch (SerialPortInvalidPortException e) {
      throw new LinkException(new PortProblems(name).missing(SerialPorts.names()), e);
    }
  }

  private static void configure(SerialPort port, LineSettings settings) {
    if (settings.raiseDtr()) {
      port.setDTR();
    } else {
      port.clearDTR();
    }
    if (settings.raiseRts()) {
      port.setRTS();
    } else {
      port.clearRTS();
    }
    port.setComPortParameters(settings.baud(), 8, SerialPort.ONE_STOP_BIT, SerialPort.NO_PARITY);
    port.setFlowControl(SerialPort.FLOW_CONTROL_DISABLED);
    // Never with TIMEOUT_WRITE_BLOCKING: a write that is stuck in it cannot be freed.
    port.setComPortTimeouts(SerialPort.TIMEOUT_READ_SEMI_BLOCKING, READ_ROUND_MS, 0);
    // What lies in the driver from before is not for this session.
    port.flushIOBuffers();
  }

  static Problem failure(String name, int errorCode) {
    PortProblems problems = new PortProblems(name);
    if (!DeviceFile.isNamedByPath()) {
      return WindowsError.of(errorCode, problems);
    }
    return switch (errorCode) {
      case Errno.EAGAIN_LINUX, Errno.EAGAIN_BSD, Errno.EBUSY ->
          problems.busy(new DeviceFile(name).holder());
      case Errno.EACCES, Errno.EPERM -> new DeviceFile(name).notPermitted();
      case Errno.ENOENT, Errno.ENXIO, Errno.ENODEV -> problems.missing(SerialPorts.names());
      case Errno.ENOTTY, Errno.EINVAL -> problems.notASerialPort("a device of another kind");
      case Errno.EIO -> problems.lost("the system cannot talk to it");
      default -> problems.notOpened(errorCode);
    };
  }
}
