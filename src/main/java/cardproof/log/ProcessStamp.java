package cardproof.log;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.OptionalLong;

/**
 * Which process writes a run. Its number alone says little, since numbers are used again; so its
 * start is kept too.
 *
 * @param host name of the machine
 * @param pid number of the process on it
 * @param startedUs when it started, microseconds since 1970; empty where the system does not tell
 */
record ProcessStamp(String host, long pid, OptionalLong startedUs) {
  /**
   * Some systems work the start out from the time since boot, and setting the clock moves it; a
   * number is not used again this soon.
   */
  private static final long SAME_START_US = 2_000_000;

  /** Asked once: where the network is badly set up, the answer can take seconds. */
  private static final String HOST = hostName();

  static ProcessStamp own() {
    return of(ProcessHandle.current());
  }

  /**
   * Whether the process is known to have ended. Of another host nothing is known.
   *
   * @param here a stamp of this host
   */
  boolean isGone(ProcessStamp here) {
    if (!host.equals(here.host) || pid == here.pid && sameStart(here)) {
      return false;
    }
    return ProcessHandle.of(pid)
        .filter(ProcessHandle::isAlive)
        .filter(process -> sameStart(of(process)))
        .isEmpty();
  }

  private boolean sameStart(ProcessStamp other) {
    return startedUs.isEmpty()
        || other.startedUs.isEmpty()
        || Math.abs(startedUs.getAsLong() - other.startedUs.getAsLong()) <= SAME_START_US;
  }

  private static ProcessStamp of(ProcessHandle process) {
    OptionalLong started =
        process
            .info()
            .startInstant()
            .map(Micros::of)
            .map(OptionalLong::of)
            .orElse(OptionalLong.empty());
    return new ProcessStamp(HOST, process.pid(), started);
  }

  private static String hostName() {
    try {
      return InetAddress.getLocalHost().getHostName();
    } catch (UnknownHostException e) {
      // A machine whose own name has no address; these are set where a shell knows the name.
      String name = System.getenv().getOrDefault("HOSTNAME", System.getenv("COMPUTERNAME"));
      return name == null ? "unnamed" : name;
    }
  }
}
