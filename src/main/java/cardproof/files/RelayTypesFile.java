package cardproof.files;

import cardproof.card.wiring.RelayType;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Reads a library of relay types. */
public final class RelayTypesFile {
  private RelayTypesFile() {}

  /**
   * The types, in the order of the file.
   *
   * @throws RefusedException with everything that is wrong with the file, sorted by place
   */
  public static Loaded<List<RelayType>> read(Path file) {
    Problems problems = new Problems(file);
    Optional<RelayLibrary> library = RelayLibrary.read(file, problems);
    problems.refuseIfAny();
    return new Loaded<>(library.orElseThrow().types(), problems.warnings(), List.of(file));
  }
}
