package cardproof.run;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;

/** Asks a run to end; may be called from any thread, the first reason stays. */
public final class StopSignal {
  private final AtomicReference<String> reason = new AtomicReference<>();

  /**
   * @param why in a few words: {@code Ctrl-C}
   */
  public void request(String why) {
    reason.compareAndSet(null, why);
  }

  public Optional<String> reason() {
    return Optional.ofNullable(reason.get());
  }
}
