package cardproof.files;

import cardproof.fixture.FixtureProfile;
import cardproof.text.RefusedException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Reads the file of a fixture's profile. */
public final class FixtureFile {
  private FixtureFile() {}

  /**
   * @throws RefusedException with everything that is wrong with the file, sorted by place
   */
  public static Loaded<FixtureProfile> read(Path file) {
    Problems problems = new Problems(file);
    Optional<FixtureProfile> profile =
        SourceReader.read(file, problems)
            .flatMap(source -> YamlTree.of(source, problems))
            .flatMap(root -> Kind.FIXTURE.check(root, problems))
            .flatMap(root -> new FixtureReader(problems).read(root));
    problems.refuseIfAny();
    return new Loaded<>(profile.orElseThrow(), problems.warnings(), List.of(file));
  }
}
