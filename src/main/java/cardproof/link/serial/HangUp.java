package cardproof.link.serial;

import com.sun.jna.Function;
import com.sun.jna.Memory;
import com.sun.jna.NativeLibrary;
import com.sun.jna.Platform;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Keeps what happens at a hang-up signal as it was, through a call that changes it.
 *
 * <p>jSerialComm's library sets SIGHUP to be ignored when it is loaded: a run whose terminal was
 * closed would go on and keep the coils held. Java cannot set that right by itself, because the
 * virtual machine leaves a hang-up that is ignored alone, so that {@code nohup} works
 * (JVM_RegisterSignal, measured with Java 17). So the disposition is read before and put back after
 * with {@code sigaction} (POSIX.1-2017), whole and unread; a program under {@code nohup} stays
 * under it.
 */
final class HangUp {
  private static final Logger LOG = LoggerFactory.getLogger(HangUp.class);

  /** POSIX.1-2017, {@code kill}: the number that {@code -1} and {@code -HUP} name. */
  private static final int SIGHUP = 1;

  /** More than any system's {@code struct sigaction}; 152 bytes on 64-bit Linux. */
  private static final int SIGACTION_BYTES = 512;

  private static final String CONSEQUENCE =
      "SIGHUP stays ignored: closing the terminal will not end the program";

  private HangUp() {}

  /** Runs {@code call}; the hang-up signal does afterwards what it did before. */
  static void keptThrough(Runnable call) {
    Optional<Function> sigaction = Platform.isWindows() ? Optional.empty() : sigaction();
    if (sigaction.isEmpty()) {
      call.run();
      return;
    }
    try (Memory before = new Memory(SIGACTION_BYTES)) {
      before.clear();
      int got = sigaction.get().invokeInt(new Object[] {SIGHUP, null, before});
      call.run();
      int put = got == 0 ? sigaction.get().invokeInt(new Object[] {SIGHUP, before, null}) : -1;
      if (put != 0) {
        LOG.warn(CONSEQUENCE);
      }
    }
  }

  private static Optional<Function> sigaction() {
    try {
      return Optional.of(NativeLibrary.getProcess().getFunction("sigaction"));
    } catch (LinkageError e) {
      LOG.warn(CONSEQUENCE, e);
      return Optional.empty();
    }
  }
}
