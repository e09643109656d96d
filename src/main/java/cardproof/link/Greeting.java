package cardproof.link;

import java.util.Optional;
import java.util.random.RandomGenerator;

/** Finds out who is at the other end of a line, and whether to talk to it. */
final class Greeting {
  private Greeting() {}

  /**
   * Says HELLO until it is answered.
   *
   * @throws LinkException silence, something else, another major version, or a fixture whose frames
   *     are too short for its own channels
   */
  static HelloReply exchange(FrameLine line, RandomGenerator random, int tries) {
    int nonce = random.nextInt();
    Hello hello = new Hello(Protocol.MAJOR, Protocol.MINOR);
    Asking asking =
        new Asking(
            line.nowNs(),
            tries,
            () -> {
              line.wake();
              line.ask(nonce, hello);
            },
            () -> line.tally().requestsRepeated++,
            () -> unanswered(line, tries));
    for (; ; ) {
      asking.tend(line.nowNs());
      line.receive(asking.dueNs());
      Optional<HelloReply> reply = answer(line, nonce);
      if (reply.isPresent()) {
        return checked(line.name(), reply.get());
      }
    }
  }

  private static Optional<HelloReply> answer(FrameLine line, int nonce) {
    for (var next = line.poll(); next.isPresent(); next = line.poll()) {
      Frame frame = next.get().frame();
      if (frame.session() == nonce && frame.message() instanceof HelloReply reply) {
        return Optional.of(reply);
      }
    }
    return Optional.empty();
  }

  private static HelloReply checked(String wire, HelloReply reply) {
    if (reply.major() != Protocol.MAJOR) {
      throw LinkProblems.otherMajor(wire, reply);
    }
    int needed = MessageCodec.longestFromHost(reply.drives(), reply.watches());
    if (reply.longestFrame() < needed) {
      throw LinkProblems.frameTooShort(wire, reply, needed);
    }
    return reply;
  }

  private static LinkException unanswered(FrameLine line, int tries) {
    long bytes = line.tally().bytesReceived;
    return bytes == 0
        ? LinkProblems.silent(line.name(), LinkTimes.toMs(LinkTimes.REQUEST_NS * tries))
        : LinkProblems.foreign(line.name(), bytes);
  }
}
