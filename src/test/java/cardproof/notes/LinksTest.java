package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Links of the builder's notes lead somewhere: to a file that is there, and a heading that is on
 * it.
 */
class LinksTest {
  private static final Pattern LINK = Pattern.compile("\\[[^\\]]+]\\(([^)\\s]+)\\)");

  @ParameterizedTest
  @ValueSource(strings = {"wiring.md", "boards.md", "flashing.md"})
  void everyLinkLeadsSomewhere(String name) {
    Page page = Page.read(name);
    Matcher link = LINK.matcher(page.text());
    int count = 0;
    while (link.find()) {
      count++;
      String[] parts = link.group(1).split("#", 2);
      Path target = parts[0].isEmpty() ? page.path() : Page.FOLDER.resolve(parts[0]).normalize();
      assertThat(target).as(link.group()).exists();
      if (parts.length > 1) {
        assertThat(anchors(target)).as(link.group()).contains(parts[1]);
      }
    }
    assertThat(count).isGreaterThan(3);
  }

  @ParameterizedTest
  @ValueSource(strings = {"wiring.md", "boards.md", "flashing.md"})
  void profilesThatArePointedToExist(String name) {
    Matcher profile = Pattern.compile("`(fixtures/\\S+\\.yaml)`").matcher(Page.read(name).text());
    while (profile.find()) {
      assertThat(Files.exists(Path.of(profile.group(1)))).as(profile.group()).isTrue();
    }
  }

  /**
   * As common hosts of Markdown make them: lower case, signs left out, hyphens for spaces (from
   * memory).
   */
  private static List<String> anchors(Path page) {
    return Page.read(page)
        .text()
        .lines()
        .filter(line -> line.startsWith("#"))
        .map(line -> line.replaceFirst("^#+ ", "").toLowerCase(Locale.ROOT))
        .map(heading -> heading.replaceAll("[^a-z0-9 -]", "").replace(' ', '-'))
        .toList();
  }
}
