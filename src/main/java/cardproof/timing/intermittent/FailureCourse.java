package cardproof.timing.intermittent;

import cardproof.log.BenchLog;
import cardproof.log.PowerOn;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.function.LongPredicate;
import java.util.stream.LongStream;

/** What passed and failed one after the other, without the vectors that failed every time. */
final class FailureCourse {
  private final LongStream.Builder failures = LongStream.builder();
  private int judged;
  private int sessions;
  private int failedSessions;
  private int lastFailedSession;

  static FailureCourse of(
      BenchLog log, List<Long> runs, LongPredicate which, FailureCounts counts) {
    FailureCourse course = new FailureCourse();
    for (long run : runs) {
      Deque<PowerOn> powerOns = new ArrayDeque<>(log.powerOns(run));
      log.forEachVerdict(
          run,
          (vector, verdict) -> {
            while (!powerOns.isEmpty() && powerOns.peek().vector() <= vector) {
              course.sessions += powerOns.remove().how().isNewPower() ? 1 : 0;
            }
            if (which.test(vector) && FailureCounts.isJudged(verdict) && !counts.stands(vector)) {
              course.take(verdict.isFailure());
            }
          });
    }
    return course;
  }

  private void take(boolean failed) {
    if (failed) {
      failures.add(judged);
      if (sessions > lastFailedSession) {
        lastFailedSession = sessions;
        failedSessions++;
      }
    }
    judged++;
  }

  /** Places of the failures among all, rising, from 0; to be asked for once. */
  long[] failures() {
    return failures.build().toArray();
  }

  int judged() {
    return judged;
  }

  /** Power cycles that the log knows of. */
  int sessions() {
    return sessions;
  }

  int failedSessions() {
    return failedSessions;
  }
}
