package cardproof.link.serial;

import com.fazecast.jSerialComm.SerialPort;
import com.sun.jna.Native;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Loads the native serial library, once, in a way that is safe on a machine with other users.
 *
 * <p>jSerialComm unpacks its library into the common temporary directory where anybody may replace
 * it, and reuses what it finds there. So it is shown a fresh private one instead, which is deleted
 * at once where the system allows that for a loaded library, and at the end of the program
 * elsewhere.
 *
 * <p>While that lasts (about 50 ms) {@code java.io.tmpdir} names the private directory. Load before
 * other threads make temporary files; {@link SerialPorts#list} does.
 */
final class SerialLibrary {
  private static final Logger LOG = LoggerFactory.getLogger(SerialLibrary.class);
  private static final String[] PLACES = {"java.io.tmpdir", "jna.tmpdir"};

  private static boolean loaded;

  private SerialLibrary() {}

  /**
   * Must come before the first use of jSerialComm; free after the first call.
   *
   * @throws java.io.UncheckedIOException when no private directory can be made
   */
  static synchronized void load() {
    if (loaded) {
      return;
    }
    PrivateDirectory home = PrivateDirectory.create("cardproof-serial-");
    Runtime.getRuntime().addShutdownHook(new Thread(home::close, "serial library removal"));
    String[] before = new String[PLACES.length];
    for (int i = 0; i < PLACES.length; i++) {
      before[i] = System.setProperty(PLACES[i], home.path().toString());
    }
    try {
      LOG.debug("JNA {} and jSerialComm from {}", Native.VERSION, home.path());
      HangUp.keptThrough(SerialPort::getCommPorts);
      loaded = true;
    } finally {
      for (int i = 0; i < PLACES.length; i++) {
        restore(PLACES[i], before[i]);
      }
      home.close();
    }
  }

  private static void restore(String property, String value) {
    if (value == null) {
      System.clearProperty(property);
    } else {
      System.setProperty(property, value);
    }
  }
}
