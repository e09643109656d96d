package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.files.CardFile;
import cardproof.log.BenchLog;
import cardproof.log.MovedLine;
import cardproof.log.VectorRecord;
import cardproof.report.VcdFile;
import cardproof.report.VcdReader;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** {@code run --vcd}. */
class WaveTest {
  private static final Path HOLD = Path.of("vectors", "hold", "bring-up.yaml");
  private static final Path SUM = Path.of("vectors", "sum", "bring-up.yaml");
  private static final long SAMPLING_NS = 50_000;

  @TempDir private Path folder;

  private static JsonObject json(Cli cli) {
    return JsonParser.parseString(cli.out()).getAsJsonObject();
  }

  private Path log() {
    return folder.resolve("bench-log.sqlite");
  }

  private Cli run(Path plan, Object... more) {
    List<Object> words = new ArrayList<>(List.of("run", plan, "--log", log()));
    words.addAll(List.of(more));
    return Cli.run(words.toArray());
  }

  private String wave(Path plan, Object... more) throws IOException {
    Path file = folder.resolve("wave.vcd");
    List<Object> words = new ArrayList<>(List.of("--vcd", file, "--overwrite"));
    words.addAll(List.of(more));
    Cli cli = run(plan, words.toArray());
    assertThat(cli.out()).as(cli.err()).contains("every edge in " + file + "\n");
    return Files.readString(file);
  }

  /** The hold card, of which it is not known how it is wired. */
  private Path unwired() throws IOException {
    String card = Files.readString(Path.of("vectors", "hold", "card.yaml"));
    Files.writeString(folder.resolve("card.yaml"), card.substring(0, card.indexOf("\nwiring:")));
    return Files.writeString(folder.resolve("bring-up.yaml"), Files.readString(HOLD));
  }

  /** From its behaviour, so that it changes with the writer and not with the demonstration. */
  @Test
  void aShortRunOfTheHoldCard() throws IOException {
    Path plan = unwired();
    Locale before = Locale.getDefault();
    try {
      for (String locale : new String[] {"en-GB", "ar-EG-u-nu-arab"}) {
        Locale.setDefault(Locale.forLanguageTag(locale));
        String wave = wave(plan, "--only", "take a word");
        Golden.assertSame("hold-wave.vcd", wave.replace(Version.text(), "cardproof"));
      }
    } finally {
      Locale.setDefault(before);
    }
  }

  @Test
  void theSameSeedGivesTheSameBytesAndAnotherOneOthers() throws IOException {
    Object[] words = {"--only", "take a word", "--vcd-nets", "*", "--seed", 1};
    String first = wave(HOLD, words);
    assertThat(wave(HOLD, words)).isEqualTo(first);
    words[words.length - 1] = 2;
    assertThat(wave(HOLD, words).replace("seed 2 ", "seed 1 ")).isNotEqualTo(first);
  }

  @Test
  void theRunIsTheSameWithAndWithoutIt() {
    Path file = folder.resolve("a.vcd");
    JsonObject with = json(run(HOLD, "--json", "--vcd", file));
    JsonObject without = json(run(HOLD, "--json"));
    assertThat(with.get("vcd").getAsString()).isEqualTo(file.toString());
    assertThat(without.get("vcd").isJsonNull()).isTrue();
    for (String differs : new String[] {"vcd", "run", "wallMs"}) {
      with.remove(differs);
      without.remove(differs);
    }
    assertThat(with).isEqualTo(without);
  }

  @Test
  void aRunSaysWhatItWasSimulatedFrom() throws IOException {
    Object[] short1 = {"--only", "take a word"};
    assertThat(run(HOLD, short1).out())
        .contains("SIMULATED from the card's wiring and its relay types.\n");
    assertThat(run(unwired(), short1).out())
        .contains("SIMULATED times come from the card's behaviour and relay figures");
    assertThat(json(run(HOLD, "--only", "take a word", "--json")).get("simulatedFrom"))
        .hasToString("\"wiring\"");
    assertThat(json(run(unwired(), "--only", "take a word", "--json")).get("simulatedFrom"))
        .hasToString("\"behaviour\"");
    assertThat(VcdReader.read(wave(HOLD, short1)).comments())
        .contains("SIMULATED from its wiring: card hold, unit 01, seed 1");
  }

  @Test
  void netsAndTheSupplyAreShownWhereThereAreSome() throws IOException {
    VcdFile wave = VcdReader.read(wave(HOLD, "--only", "take a word", "--vcd-nets", "+12V"));
    assertThat(wave.signal("hold.nets.+12V").at(0)).isEqualTo("1");
    assertThat(wave.signal("hold.supply.volts").at(0)).isEqualTo("12");
    VcdFile.Signal current = wave.signal("hold.supply.mA");
    double mostMa =
        current.values().values().stream().mapToDouble(Double::parseDouble).max().orElseThrow();
    assertThat(mostMa).isBetween(100.0, 2500.0);
    assertThat(VcdReader.read(wave(unwired(), "--only", "take a word")).signals().keySet())
        .noneMatch(name -> name.startsWith("hold.supply") || name.startsWith("hold.nets"));
  }

  /** What the fixture sampled and counted is there, each edge less than one sample earlier. */
  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void everyMovementOfTheLogIsInTheWave(boolean fromWiring) throws IOException {
    Path plan = fromWiring ? HOLD : unwired();
    VcdFile wave = VcdReader.read(wave(plan, "--fault", "Q[4] exchanged with Q[5]"));
    Card card = CardFile.read(HOLD.resolveSibling("card.yaml")).value();
    List<VectorRecord> records = new ArrayList<>();
    try (BenchLog log = BenchLog.openForReading(log())) {
      log.forEachVector(1, records::add);
    }
    assertThat(records).hasSizeGreaterThan(100);
    int bounced = 0;
    for (VectorRecord record : records) {
      long startNs = record.startUs() * 1000;
      assertThat(Long.parseLong(wave.signal("hold.vector.number").at(startNs), 2))
          .isEqualTo(record.number() + 1);
      assertThat(text(wave.signal("hold.vector.verdict").at(startNs)))
          .isEqualTo(record.verdict().word());
      for (Line line : card.lines()) {
        List<Long> edges = edges(wave, line, startNs, startNs + record.durationUs() * 1000);
        var moved = record.moved().stream().filter(m -> m.line() == line.index()).findFirst();
        if (moved.isPresent()) {
          checkMoved(moved.get(), edges, startNs);
          bounced += edges.size() > 1 ? 1 : 0;
        } else if (line.bus().role().watched()) {
          assertThat(edges.size()).as("%s in vector %d", line, record.number()).isLessThan(3);
          assertThat(edges.size() % 2).as("glitches come back").isZero();
        }
      }
    }
    assertThat(bounced).isGreaterThan(100);
    assertThat(wave.comments()).contains("fault put in: Q[4] exchanged with Q[5]");
  }

  private static void checkMoved(MovedLine moved, List<Long> edges, long startNs) {
    long firstNs = startNs + moved.firstUs() * 1000;
    long lastNs = startNs + moved.lastUs() * 1000;
    assertThat(edges).hasSizeGreaterThanOrEqualTo(moved.changes());
    assertThat(edges.size() % 2).isEqualTo(moved.changes() % 2);
    assertThat(edges).anyMatch(ns -> ns <= firstNs && ns > firstNs - SAMPLING_NS - 1000);
    long latest = edges.get(edges.size() - 1);
    assertThat(edges)
        .as("an edge one sample before %d, the last being at %d", lastNs, latest)
        .anyMatch(ns -> ns <= lastNs && ns > lastNs - SAMPLING_NS - 1000);
  }

  private static List<Long> edges(VcdFile wave, Line line, long fromNs, long toNs) {
    VcdFile.Signal bus = wave.signal("hold.lines." + line.bus().name());
    List<Long> edges = new ArrayList<>();
    int at = bus.size() - 1 - line.bit();
    for (Map.Entry<Long, String> value :
        bus.values().subMap(fromNs, true, toNs, false).entrySet()) {
      Map.Entry<Long, String> before = bus.values().lowerEntry(value.getKey());
      if (before != null && before.getValue().charAt(at) != value.getValue().charAt(at)) {
        edges.add(value.getKey());
      }
    }
    return edges;
  }

  private static String text(String digits) {
    StringBuilder letters = new StringBuilder();
    for (int at = 0; at < digits.length(); at += 8) {
      int letter = Integer.parseInt(digits.substring(at, at + 8), 2);
      letters.append(letter == 0 ? "" : Character.toString(letter));
    }
    return letters.toString();
  }

  @Test
  void aFileThatIsThereStays() throws IOException {
    Path file = Files.writeString(folder.resolve("old.vcd"), "$comment mine $end");
    Cli cli = run(HOLD, "--vcd", file);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .isEqualTo(
            file
                + ": this is there already; wanted the name of a file that is not there yet."
                + " Name another, move this one away, or let --overwrite replace it.\n");
    assertThat(file).hasContent("$comment mine $end");
    assertThat(folder.resolve("bench-log.sqlite")).doesNotExist();
  }

  @Test
  void onlyAWaveIsEverReplaced() throws IOException {
    Path plan = unwired();
    String text = Files.readString(plan);
    for (Path file : List.of(plan, folder)) {
      Cli cli = run(HOLD, "--vcd", file, "--overwrite");
      assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
      assertThat(cli.err()).startsWith(file + ": this is there already, and it is no VCD file;");
    }
    assertThat(plan).hasContent(text);
  }

  @Test
  void aFileThatCannotBeWrittenIsSaidBeforeAnythingIsDriven() throws IOException {
    unwired();
    Path file = folder.resolve("card.yaml").resolve("wave.vcd");
    Cli cli = run(HOLD, "--vcd", file);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.out()).isEmpty();
    assertThat(cli.err())
        .isEqualTo(
            file
                + ": "
                + folder.resolve("card.yaml")
                + " is a file; wanted a folder to put it into.\n");
    assertThat(folder.resolve("bench-log.sqlite")).doesNotExist();
  }

  @Test
  void aDiskThatFillsUpCostsTheWaveAndNotTheRun() {
    Path full = Path.of("/dev/full");
    assumeTrue(Files.isWritable(full), "skipped: no device here that is always full");
    Cli cli = run(HOLD, "--vcd", full);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .startsWith("/dev/full: the wave broke off ")
        .contains("No space left on device")
        .endsWith(" The run itself went on and was recorded.\n");
    assertThat(cli.out()).contains("PROVED: hold unit 01");
  }

  @Test
  void aRealPortOffersNoEdgesAndItsOwnTime() {
    Cli wave = run(HOLD, "--port", "/dev/none", "--vcd", folder.resolve("a.vcd"));
    assertThat(wave.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(wave.err())
        .isEqualTo(
            "--vcd: a fixture on a port cannot tell what goes on inside of a card; wanted the"
                + " simulated bench. Write --capture FILE for every edge that the fixture itself"
                + " sees, or leave --port out.\n");
    Cli time = run(HOLD, "--port", "/dev/none", "--real-time");
    assertThat(time.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(time.err()).startsWith("--real-time: a real card takes its own time anyway;");
  }

  @Test
  void namesOfNetsAreCheckedAndGoWithAFile() {
    Cli typo = run(SUM, "--vcd", folder.resolve("a.vcd"), "--vcd-nets", "S[12],S[3]");
    assertThat(typo.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(typo.err())
        .startsWith("--vcd-nets: card sum has no ")
        .contains("Did you mean 'C[12]'?");
    assertThat(folder.resolve("a.vcd")).doesNotExist();
    Cli alone = run(SUM, "--vcd-nets", "S[3]");
    assertThat(alone.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(alone.err())
        .isEqualTo(
            "--vcd-nets: no file is asked for that it could be about; wanted --vcd FILE with"
                + " it.\n");
  }
}
