package cardproof.link;

import java.util.function.Function;
import java.util.function.Predicate;

/** SUPPLY and SUPPLY_R: one byte, 1 on, 0 off; any but 0 is read as on. */
record SwitchFormat<M extends Message>(Predicate<M> on, Function<Boolean, M> make)
    implements Format<M> {
  private static final int ON = 0;
  private static final int LENGTH = 1;

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
    body.putU8(ON, on.test(message) ? 1 : 0);
  }

  @Override
  public M get(Body body) {
    return make.apply(body.u8(ON) != 0);
  }
}
