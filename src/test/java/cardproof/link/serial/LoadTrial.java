package cardproof.link.serial;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.SynchronousQueue;

/**
 * A process that loads the serial library between or before asking for signals, then ends with the
 * first signal. Argument: {@code before} or {@code after}, when it asks.
 */
final class LoadTrial {
  private LoadTrial() {}

  public static void main(String[] args) throws Exception {
    SynchronousQueue<String> signals = new SynchronousQueue<>();
    String tmp = System.getProperty("java.io.tmpdir");
    if (args[0].equals("before")) {
      System.out.println("handled " + Signals.onStop(name -> put(signals, name)));
    }
    SerialLibrary.load();
    SerialPorts.list();
    if (args[0].equals("after")) {
      System.out.println("handled " + Signals.onStop(name -> put(signals, name)));
    }
    System.out.println("tmpdir kept " + tmp.equals(System.getProperty("java.io.tmpdir")));
    try (var maps = Files.lines(Path.of("/proc/self/maps"))) {
      System.out.println(
          "library "
              + maps.filter(line -> line.contains("libjSerialComm"))
                  .map(line -> line.substring(line.indexOf('/')))
                  .findFirst()
                  .orElse("nowhere"));
    }
    System.out.println("got " + signals.take());
    System.exit(3);
  }

  private static void put(SynchronousQueue<String> signals, String name) {
    try {
      signals.put(name);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
