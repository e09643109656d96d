package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.card.Card;
import cardproof.files.CardFile;
import cardproof.files.FixtureFile;
import cardproof.fixture.AtReset;
import cardproof.fixture.DriveKind;
import cardproof.fixture.FixtureFit;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Each board of boards.md has a profile, which says of it what its code does and what the notes
 * say.
 */
class BoardProfilesTest {
  private static final Page PAGE = Page.read("boards.md");
  private static final List<String> CARDS = List.of("sum", "hold", "hour", "pick", "store");

  /**
   * A row of the page's first table.
   *
   * @param build name that the Makefile knows it by
   */
  private record Board(String build, Path profile, int drives, int watches, String suits) {
    FixtureProfile read() {
      return FixtureFile.read(profile).value();
    }

    /** What the board's header defines. */
    String defined(String name) throws IOException {
      Path header =
          Page.FOLDER.resolve(Path.of("reference", "avr", build.replace('-', '_') + ".h"));
      Matcher matcher =
          Pattern.compile("#define " + name + " (.*)").matcher(Files.readString(header));
      assertThat(matcher.find()).as(name).isTrue();
      return matcher.group(1).strip();
    }
  }

  static List<Board> boards() {
    Page.Table table = PAGE.table("Boards: which pin is which channel", "board");
    List<Board> boards = new ArrayList<>();
    for (List<String> row : table.rows()) {
      boards.add(
          new Board(
              row.get(1).replace("`", ""),
              Path.of(row.get(2).replace("`", "")),
              Integer.parseInt(row.get(3)),
              Integer.parseInt(row.get(4)),
              row.get(5)));
    }
    assertThat(boards).hasSize(3);
    return boards;
  }

  @ParameterizedTest
  @MethodSource("boards")
  void pageProfileAndCodeAgree(Board board) throws IOException {
    FixtureProfile profile = board.read();
    assertThat(profile.drives()).isEqualTo(board.drives());
    assertThat(profile.watches()).isEqualTo(board.watches());
    assertThat(board.defined("BOARD_DRIVES")).isEqualTo(String.valueOf(board.drives()));
    assertThat(board.defined("BOARD_WATCHES")).isEqualTo(String.valueOf(board.watches()));
    assertThat(board.defined("BOARD_NAME")).isEqualTo('"' + profile.name() + '"');
    assertThat(profile.simulated()).isFalse();
    assertThat(profile.baud()).isEqualTo(250_000);
    assertThat(profile.drive().kind()).isEqualTo(DriveKind.SOURCE);
    assertThat(profile.drive().atReset()).isEqualTo(AtReset.RELEASED);
    assertThat(Page.FOLDER.resolve("reference").resolve("Makefile"))
        .content()
        .containsPattern("CHIPS :=.*\\b" + Pattern.quote(board.build()) + "\\b");
  }

  /** The dividers of wiring.md, the same on every board. */
  @ParameterizedTest
  @MethodSource("boards")
  void watchesAreTheDividersOfTheNotes(Board board) throws IOException {
    List<String> row =
        Page.read("wiring.md").table("Watches", "").rows().stream()
            .filter(cells -> cells.get(0).equals("put into the profile"))
            .findFirst()
            .orElseThrow();
    assertThat(Files.readString(board.profile())).contains(row.get(1).replace("`", ""));
  }

  @ParameterizedTest
  @MethodSource("boards")
  void suitsTheCardsThatThePageSays(Board board) {
    FixtureProfile profile = board.read();
    List<String> fitting = new ArrayList<>();
    for (String name : CARDS) {
      Card card = CardFile.read(Path.of("vectors", name, "card.yaml")).value();
      assertThat(FixtureFit.of(card, profile).errors()).as(name).isEmpty();
      if (HookUp.drivesNeeded(card) <= profile.drives()
          && HookUp.watchesNeeded(card) <= profile.watches()) {
        assertThat(HookUp.of(card, profile).card()).isSameAs(card);
        fitting.add(name);
      } else {
        assertThatThrownBy(() -> HookUp.of(card, profile)).isInstanceOf(RefusedException.class);
      }
    }
    assertThat(fitting)
        .isEqualTo(
            switch (board.suits().replaceFirst(", which has .*", "")) {
              case "all demonstration cards" -> CARDS;
              case "all demonstration cards but `sum`" -> CARDS.subList(1, CARDS.size());
              case "small cards such as `pick`" -> List.of("pick");
              default -> List.of("not understood: " + board.suits());
            });
  }
}
