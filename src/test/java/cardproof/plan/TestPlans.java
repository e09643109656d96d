package cardproof.plan;

import cardproof.files.PlanFile;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** Plans as a user writes them, read from text. */
final class TestPlans {
  private TestPlans() {}

  /**
   * @param card text of a card file
   * @param steps what follows {@code steps:} in a plan file
   */
  static Plan read(String card, String steps) {
    try {
      Path folder = Files.createTempDirectory("plan");
      Path cardFile = Files.writeString(folder.resolve("card.yaml"), card);
      Path planFile =
          Files.writeString(
              folder.resolve("plan.yaml"), "plan: a test\ncard: card.yaml\nsteps:\n" + steps);
      Plan plan = PlanFile.read(planFile).value();
      Files.delete(planFile);
      Files.delete(cardFile);
      Files.delete(folder);
      return plan;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static PlanCheck check(Plan plan) {
    return PlanCheck.of(plan, done -> {});
  }
}
