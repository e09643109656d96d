package cardproof.link;

import java.util.function.Supplier;

/** ARM and STOP: no body. */
record BareFormat<M extends Message>(Supplier<M> make) implements Format<M> {
  @Override
  public int length(M message) {
    return 0;
  }

  @Override
  public int length(Body body) {
    return 0;
  }

  @Override
  public void put(M message, Body body) {
    // nothing to say beyond the type
  }

  @Override
  public M get(Body body) {
    return make.get();
  }
}
