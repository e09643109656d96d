package cardproof.link;

import java.util.Objects;

/**
 * A message and the session it belongs to.
 *
 * @param session in HELLO and HELLO_R a random number of the host's in its place
 */
public record Frame(int session, Message message) {
  public Frame {
    Objects.requireNonNull(message);
  }
}
