package cardproof.log;

import java.nio.file.Path;
import java.util.Random;

/**
 * A process of its own that commits vectors, as many at a time as its second word says, and prints
 * the number of the last one each time.
 */
final class AppendUntilKilled {
  private AppendUntilKilled() {}

  public static void main(String[] args) {
    BenchLog log = BenchLog.open(Path.of(args[0]), SumCard.CLOCK);
    RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")));
    writer.step(SumCard.step(0));
    long group = Long.parseLong(args[1]);
    for (long number = 0; ; number++) {
      writer.append(SumCard.passed(number, new Random(number)));
      if (number % group == group - 1) {
        writer.commit();
        System.out.println(number);
      }
    }
  }
}
