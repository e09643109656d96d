package cardproof.link.serial;

/**
 * The reading half of a line, one thread. As it comes round at least every 100 ms it also looks
 * whether the writing half is stuck, which that half cannot see for itself.
 */
final class Receiver implements Runnable {
  private static final int BUFFER_BYTES = 4096;
  private static final long ROUND_NS = 100_000_000L;

  private final ByteLine line;
  private final Inbox inbox;
  private final Sender sender;
  private final Health health;
  private final PortProblems problems;
  private volatile boolean stopped;

  Receiver(ByteLine line, Inbox inbox, Sender sender, Health health, PortProblems problems) {
    this.line = line;
    this.inbox = inbox;
    this.sender = sender;
    this.health = health;
    this.problems = problems;
  }

  void stop() {
    stopped = true;
  }

  @Override
  public void run() {
    byte[] buffer = new byte[BUFFER_BYTES];
    while (!over()) {
      int count = line.read(buffer);
      if (count < 0 && !over()) {
        health.fail(problems.lost("reading from it fails"));
      }
      int passed = 0;
      while (passed < count && !over()) {
        passed += inbox.put(buffer, passed, count, ROUND_NS);
        sender.checkStall();
      }
      sender.checkStall();
    }
  }

  private boolean over() {
    return stopped || health.failed();
  }
}
