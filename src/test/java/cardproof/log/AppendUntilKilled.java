package cardproof.log;

import java.nio.file.Path;
import java.util.Random;

/** A process of its own that commits vector after vector and prints each number once committed. */
final class AppendUntilKilled {
  private AppendUntilKilled() {}

  public static void main(String[] args) {
    BenchLog log = BenchLog.open(Path.of(args[0]), SumCard.CLOCK);
    RunWriter writer = log.begin(SumCard.start(UnitId.real("sum", "03")));
    writer.step(SumCard.step(0));
    for (long number = 0; ; number++) {
      writer.append(SumCard.passed(number, new Random(number)));
      writer.commit();
      System.out.println(number);
    }
  }
}
