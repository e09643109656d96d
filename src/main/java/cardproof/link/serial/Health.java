package cardproof.link.serial;

import cardproof.link.LinkException;
import cardproof.text.Problem;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicReference;

/** The first thing that went wrong on a line, seen by all its threads; thread-safe. */
final class Health {
  private final AtomicReference<Problem> first = new AtomicReference<>();
  private final List<Runnable> wakers = new CopyOnWriteArrayList<>();

  /** {@code waker} is called once, when the line fails. */
  void onFailure(Runnable waker) {
    wakers.add(waker);
  }

  /** Keeps the first problem; what follows from it is no news. */
  void fail(Problem problem) {
    if (first.compareAndSet(null, problem)) {
      wakers.forEach(Runnable::run);
    }
  }

  Optional<Problem> problem() {
    return Optional.ofNullable(first.get());
  }

  boolean failed() {
    return first.get() != null;
  }

  void check() {
    Problem problem = first.get();
    if (problem != null) {
      throw new LinkException(problem);
    }
  }
}
