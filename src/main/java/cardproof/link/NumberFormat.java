package cardproof.link;

import java.util.function.IntFunction;
import java.util.function.ToIntFunction;

/**
 * RESUME, BEAT and READ.
 *
 * <pre>
 *   0               4
 *   +---------------+
 *   | step number   |
 *   +---------------+
 * </pre>
 */
record NumberFormat<M extends Message>(ToIntFunction<M> number, IntFunction<M> make)
    implements Format<M> {
  private static final int NUMBER = 0;
  private static final int LENGTH = 4;

  @Override
  public int length(M message) {
    return LENGTH;
  }

  @Override
  public int length(Body body) {
    return LENGTH;
  }

  @Override
  public void put(M message, Body body) {
    body.putI32(NUMBER, number.applyAsInt(message));
  }

  @Override
  public M get(Body body) {
    return make.apply(body.i32(NUMBER));
  }
}
