package cardproof.run;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;

/**
 * Asks a run to end; may be called from any thread, the first reason stays. Asked once, the vector
 * that is under way may come to its end if that is soon; asked twice, or for now, it may not.
 */
public final class StopSignal {
  private final AtomicReference<String> reason = new AtomicReference<>();
  private final AtomicBoolean urgent = new AtomicBoolean();

  /**
   * @param why in a few words: {@code Ctrl-C}
   */
  public void request(String why) {
    if (!reason.compareAndSet(null, why)) {
      urgent.set(true);
    }
  }

  /** As {@link #request}, and the drives go down at once. */
  public void requestNow(String why) {
    reason.compareAndSet(null, why);
    urgent.set(true);
  }

  public Optional<String> reason() {
    return Optional.ofNullable(reason.get());
  }

  public boolean isUrgent() {
    return urgent.get();
  }
}
