package cardproof.files;

import cardproof.plan.Plan;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.Optional;

/** Reads a plan's file, and the file of its card. */
public final class PlanFile {
  private PlanFile() {}

  /**
   * Reads a plan; its card's file is named from where the plan lies.
   *
   * @throws RefusedException with everything that is wrong with the plan, sorted by place, then
   *     everything that is wrong with its card
   */
  public static Loaded<Plan> read(Path file) {
    Problems problems = new Problems(file);
    return read(file, SourceReader.read(file, problems), problems);
  }

  /**
   * Reads what a file would hold, which need not be there; its card's file must be.
   *
   * @throws RefusedException as for a file
   */
  public static Loaded<Plan> read(Path file, String text) {
    return read(file, Optional.of(SourceText.of(file.toString(), text)), new Problems(file));
  }

  private static Loaded<Plan> read(Path file, Optional<SourceText> text, Problems problems) {
    PlanReader reader = new PlanReader(file, problems);
    Optional<Plan> plan =
        text.flatMap(source -> YamlTree.of(source, problems))
            .flatMap(root -> Kind.PLAN.check(root, problems))
            .flatMap(reader::read);
    problems.refuseIfAny();
    return new Loaded<>(plan.orElseThrow(), problems.warnings(), reader.sources());
  }
}
