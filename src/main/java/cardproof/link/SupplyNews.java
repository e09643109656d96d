package cardproof.link;

import java.util.Optional;

/** What a session has heard of the card's supply. */
final class SupplyNews {
  private long on;
  private long off;
  private long senses;
  private Optional<Sense> lastSense = Optional.empty();

  void take(Message message) {
    if (message instanceof SupplyReply reply) {
      on += reply.on() ? 1 : 0;
      off += reply.on() ? 0 : 1;
    } else if (message instanceof Sense sense) {
      senses++;
      lastSense = Optional.of(sense);
    }
  }

  long replies(boolean standsOn) {
    return standsOn ? on : off;
  }

  long senses() {
    return senses;
  }

  Optional<Sense> lastSense() {
    return lastSense;
  }
}
