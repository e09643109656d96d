package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.OutsideTools;
import cardproof.notes.Page.Table;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The channel maps of boards.md against the boards' own code, which is compiled with registers that
 * are plain variables and asked: each drive switched on alone, each pin raised alone.
 */
class ChannelMapTest {
  private static final Page PAGE = Page.read("boards.md");
  private static final Path STAND_INS = Path.of("src", "test", "resources", "notes", "channels");
  private static final Path CODE = Page.FOLDER.resolve("reference");

  @TempDir private Path folder;

  @Test
  void pinsOfTheAtmega2560() throws Exception {
    Map<String, String> pins = pinsOnThePage("ATmega2560", "pin");
    assertThat(pins).hasSize(32 + 24);
    assertThat(asked("m2560")).isEqualTo(pins);
  }

  @Test
  void pinsOfTheAtmega328p() throws Exception {
    Map<String, String> pins = pinsOnThePage("ATmega328P", "pin");
    assertThat(pins).hasSize(6 + 8);
    assertThat(asked("m328p")).isEqualTo(pins);
  }

  @Test
  void shiftRegistersOfTheAtmega328p() throws Exception {
    assertThat(asked("m328p_shift", "-DSHIFTED")).isEqualTo(registersOnThePage());
  }

  @Test
  void pinsThatAreLeftAloneAreNoOutputsAndNoWatches() throws Exception {
    for (String board : List.of("ATmega2560", "ATmega328P")) {
      Map<String, String> used = pinsOnThePage(board, "pin");
      List<String> alone =
          PAGE.table(board, "left alone").column("left alone").stream()
              .flatMap(pins -> List.of(pins.split(" ")).stream())
              .toList();
      assertThat(alone).hasSizeGreaterThan(5).doesNotContainAnyElementsOf(used.values());
      String code = board.equals("ATmega2560") ? "m2560" : "m328p";
      List<String> outputs = outputs(run(code));
      assertThat(outputs).doesNotContainAnyElementsOf(alone);
      assertThat(outputs)
          .as("every output is a drive")
          .allMatch(pin -> used.entrySet().contains(Map.entry(driveOf(used, pin), pin)));
    }
  }

  /** The pins that the shift registers hang on are named in the table of signals. */
  @Test
  void signalsOfTheShiftRegisters() throws Exception {
    List<String> outputs = outputs(run("m328p_shift", "-DSHIFTED"));
    Map<String, String> pins = new HashMap<>();
    Table signals = PAGE.table("ATmega328P with shift registers", "signal");
    for (List<String> row : signals.rows()) {
      pins.put(row.get(0), row.get(1));
    }
    assertThat(pins).hasSize(6);
    assertThat(outputs)
        .containsExactlyInAnyOrder(
            pins.get("data out"),
            pins.get("clock"),
            pins.get("latch"),
            pins.get("load"),
            pins.get("enable"));
  }

  /** The headers are those that the code's own page has, where they stand as ranges. */
  @Test
  void headersAreTheSameOnBothPages() {
    Page other = Page.read(CODE.resolve("boards.md"));
    Map<String, String> headers = new HashMap<>();
    for (Table table : other.tables()) {
      if (table.heading().contains("header of common boards")) {
        for (List<String> row : table.rows()) {
          List<String> pins = expanded(row.get(1));
          List<String> numbers = expanded(row.get(2));
          String board = table.section().replaceAll("(.*?):.*", "$1");
          for (int i = 0; i < pins.size(); i++) {
            headers.put(board + " " + pins.get(i), numbers.get(i));
          }
        }
      }
    }
    for (String board : List.of("ATmega2560", "ATmega328P")) {
      Map<String, String> pins = pinsOnThePage(board, "pin");
      Map<String, String> ours = pinsOnThePage(board, "header");
      pins.forEach(
          (channel, pin) ->
              assertThat(ours.get(channel))
                  .as("%s of the %s, %s", channel, board, pin)
                  .isEqualTo(headers.get(board + " " + pin)));
    }
  }

  /** {@code PC0 to PC7} or {@code A0 to A5} or {@code 37 36 35}, one by one. */
  private static List<String> expanded(String text) {
    List<String> all = new ArrayList<>();
    String[] words = text.split(" ");
    for (int i = 0; i < words.length; i++) {
      if (words[i].equals("to")) {
        String stem = words[i - 1].replaceFirst("\\d+$", "");
        int from = Integer.parseInt(words[i - 1].substring(stem.length()));
        int to = Integer.parseInt(words[++i].substring(stem.length()));
        for (int n = from + 1; n <= to; n++) {
          all.add(stem + n);
        }
      } else {
        all.add(words[i]);
      }
    }
    return all;
  }

  private static String driveOf(Map<String, String> used, String pin) {
    return used.entrySet().stream()
        .filter(e -> e.getValue().equals(pin))
        .map(Map.Entry::getKey)
        .findFirst()
        .orElse("no channel");
  }

  /** Channel to what a column says of it; tables stand side by side, so headings come twice. */
  private static Map<String, String> pinsOnThePage(String section, String column) {
    Map<String, String> pins = new TreeMap<>();
    for (Table table : PAGE.tables()) {
      if (!table.section().equals(section) || !table.heading().contains("pin")) {
        continue;
      }
      int step = column.equals("pin") ? 1 : 2;
      for (int at = 0; at < table.heading().size(); at++) {
        String kind = table.heading().get(at);
        if (!kind.equals("drive") && !kind.equals("watch")) {
          continue;
        }
        for (List<String> row : table.rows()) {
          if (!row.get(at).isEmpty()) {
            assertThat(pins.put(kind + " " + row.get(at), row.get(at + step))).isNull();
          }
        }
      }
    }
    return pins;
  }

  private static Map<String, String> registersOnThePage() {
    Map<String, String> channels = new TreeMap<>();
    List<String> places = List.of("first", "second", "third");
    String section = "ATmega328P with shift registers";
    for (String kind : List.of("drive", "watch")) {
      Table table = PAGE.table(section, kind.equals("drive") ? "drives" : "watches");
      assertThat(table.rows()).hasSize(3);
      for (List<String> row : table.rows()) {
        List<String> numbers = expanded(row.get(0));
        assertThat(numbers).hasSize(8);
        assertThat(row.get(2)).isEqualTo(kind.equals("drive") ? "QA to QH" : "A to H");
        for (int bit = 0; bit < 8; bit++) {
          channels.put(
              kind + " " + numbers.get(bit),
              "register " + (places.indexOf(row.get(1)) + 1) + " bit " + bit);
        }
      }
    }
    return channels;
  }

  private Map<String, String> asked(String board, String... options) throws Exception {
    Map<String, String> channels = new TreeMap<>();
    for (String line : run(board, options)) {
      String[] sides = line.split(" = ");
      if (sides.length == 2) {
        assertThat(channels.put(sides[0], sides[1])).as(sides[0] + " twice").isNull();
      }
    }
    return channels;
  }

  private static List<String> outputs(List<String> lines) {
    List<String> pins = new ArrayList<>();
    for (String line : lines) {
      if (line.startsWith("outputs ")) {
        String[] words = line.split(" ");
        int set = Integer.parseInt(words[2]);
        for (int bit = 0; bit < 8; bit++) {
          if ((set & 1 << bit) != 0) {
            pins.add("P" + words[1] + bit);
          }
        }
      }
    }
    return pins;
  }

  private List<String> run(String board, String... options) throws Exception {
    OutsideTools.assumeInstalled("C++ compiler", "g++", "g++");
    Path program = folder.resolve(board);
    List<String> compile =
        new ArrayList<>(List.of("g++", "-o", program.toString(), "-I", STAND_INS.toString(), "-w"));
    for (Path quoted : List.of(CODE.resolve("core"), CODE)) {
      compile.addAll(List.of("-iquote", quoted.toString()));
    }
    compile.add("-DBOARD_HEADER=\"avr/" + board + ".h\"");
    compile.add("-DBOARD_SOURCE=\"avr/" + board + ".c\"");
    compile.addAll(List.of(options));
    compile.add(STAND_INS.resolve("channels.cpp").toString());
    OutsideTools.call(folder.resolve(board + ".compiler.txt"), compile.toArray(String[]::new));
    return OutsideTools.call(folder.resolve(board + ".txt"), program.toString());
  }
}
