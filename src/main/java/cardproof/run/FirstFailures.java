package cardproof.run;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;

/** Keeps the first failures of a run in full. One thread. */
public final class FirstFailures implements RunListener {
  private final int most;
  private final List<Failure> failures = new ArrayList<>();

  public FirstFailures(int most) {
    this.most = most;
  }

  @Override
  public void judged(Judged judged) {
    if (judged.isFailure() && failures.size() < most) {
      failures.add(Failure.of(judged));
    }
  }

  @Override
  public void superseded(Judged judged) {
    Failure now = Failure.of(judged);
    int last = failures.size() - 1;
    if (last >= 0 && failures.get(last).vector() == now.vector()) {
      failures.set(last, now);
    } else {
      judged(judged);
    }
  }

  public List<Failure> failures() {
    return Collections.unmodifiableList(failures);
  }
}
