package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.files.FixtureFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.Plug;
import cardproof.fixture.selftest.PlugLoad;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The plugs of wiring.md are those that the self-test asks for, board by board. */
class PlugsTest {
  private static final List<List<String>> ROWS =
      Page.read("wiring.md").table("Loop-back plug", "profile").rows();

  private static FixtureProfile profile(List<String> row) {
    return FixtureFile.read(Path.of(row.get(0).replace("`", ""))).value();
  }

  @Test
  void theTableHasThePlugsOfEveryBoard() {
    assertThat(ROWS).hasSize(3);
    for (List<String> row : ROWS) {
      List<String> plugs = profile(row).loopBack().plugs().stream().map(Plug::wiring).toList();
      assertThat(row.subList(1, row.size()).stream().filter(cell -> !cell.isEmpty()))
          .as(row.get(0))
          .containsExactlyElementsOf(plugs);
    }
  }

  /** What two watches draw at the highest voltage that a profile's drives bear, or at 24 V. */
  @Test
  void noDriveFeedsMoreThanItBears() {
    for (List<String> row : ROWS) {
      FixtureProfile profile = profile(row);
      for (Plug plug : profile.loopBack().plugs()) {
        for (int drive : plug.drives()) {
          assertThat(plug.watchesOf(drive).cardinality() * PlugLoad.of(profile).milliamps())
              .isLessThanOrEqualTo(profile.drive().milliamps());
        }
      }
    }
  }
}
