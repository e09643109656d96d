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

/** {@code run --vcd}. */
class WaveTest {
  private static final long SAMPLING_NS = 50_000;

  @TempDir private Path folder;

  private String wave(Path plan, Object... more) throws IOException {
    Path file = folder.resolve("wave.vcd");
    List<Object> words = new ArrayList<>(List.of("run", plan, "--vcd", file, "--overwrite"));
    words.addAll(List.of(more));
    Cli cli = Cli.run(words.toArray());
    assertThat(cli.err()).isEmpty();
    assertThat(cli.out()).contains("every edge in " + file + "\n");
    return Files.readString(file);
  }

  @Test
  void aShortRunOfTheHoldCard() throws IOException {
    Path plan = Cli.demonstration(folder, "hold");
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
    Path plan = Cli.demonstration(folder, "hold");
    String first = wave(plan);
    assertThat(wave(plan)).isEqualTo(first);
    String seed1 = "seed 1 ";
    assertThat(wave(plan, "--seed", 2).replace("seed 2 ", seed1)).isNotEqualTo(first);
  }

  @Test
  void theRunIsTheSameWithAndWithoutIt() {
    Path plan = Cli.demonstration(folder, "sum");
    JsonObject with =
        JsonParser.parseString(
                Cli.run("run", plan, "--json", "--vcd", folder.resolve("a.vcd")).out())
            .getAsJsonObject();
    JsonObject without =
        JsonParser.parseString(Cli.run("run", plan, "--json").out()).getAsJsonObject();
    assertThat(with.get("vcd").getAsString()).isEqualTo(folder.resolve("a.vcd").toString());
    assertThat(without.get("vcd").isJsonNull()).isTrue();
    assertThat(with.get("simulatedFrom").getAsString()).isEqualTo("behaviour");
    for (String differs : new String[] {"vcd", "run", "wallMs"}) {
      with.remove(differs);
      without.remove(differs);
    }
    assertThat(with).isEqualTo(without);
  }

  /** What the fixture sampled and counted is there, each edge less than one sample earlier. */
  @Test
  void everyMovementOfTheLogIsInTheWave() throws IOException {
    Path plan = Cli.demonstration(folder, "hold");
    VcdFile wave = VcdReader.read(wave(plan, "--fault", "Q[4] exchanged with Q[5]"));
    Card card = CardFile.read(folder.resolve("card.yaml")).value();
    List<VectorRecord> records = new ArrayList<>();
    try (BenchLog log = BenchLog.openForReading(folder.resolve("bench-log.sqlite"))) {
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
          assertThat(edges).as("%s in vector %d", line, record.number()).isEmpty();
        }
      }
    }
    assertThat(bounced).isGreaterThan(100);
    assertThat(wave.comments())
        .contains("SIMULATED from its behaviour: card hold, unit 01, seed 1")
        .contains("fault put in: Q[4] exchanged with Q[5]");
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
    Path plan = Cli.demonstration(folder, "hold");
    Path file = Files.writeString(folder.resolve("old.vcd"), "$comment mine $end");
    Cli cli = Cli.run("run", plan, "--vcd", file);
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
    Path plan = Cli.demonstration(folder, "hold");
    String text = Files.readString(plan);
    for (Path file : List.of(plan, folder)) {
      Cli cli = Cli.run("run", plan, "--vcd", file, "--overwrite");
      assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
      assertThat(cli.err()).startsWith(file + ": this is there already, and it is no VCD file;");
    }
    assertThat(plan).hasContent(text);
  }

  @Test
  void aFileThatCannotBeWrittenIsSaidBeforeAnythingIsDriven() throws IOException {
    Path plan = Cli.demonstration(folder, "hold");
    Path file = folder.resolve("card.yaml").resolve("wave.vcd");
    Cli cli = Cli.run("run", plan, "--vcd", file);
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
    Cli cli = Cli.run("run", Cli.demonstration(folder, "hold"), "--vcd", full);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .startsWith("/dev/full: the wave broke off ")
        .contains("No space left on device")
        .endsWith(" The run itself went on and was recorded.\n");
    assertThat(cli.out()).contains("PROVED: hold unit 01");
  }

  @Test
  void aRealPortOffersNoEdgesAndItsOwnTime() {
    Path plan = Cli.demonstration(folder, "hold");
    Cli wave = Cli.run("run", plan, "--port", "/dev/none", "--vcd", folder.resolve("a.vcd"));
    assertThat(wave.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(wave.err())
        .isEqualTo(
            "--vcd: a fixture on a port tells when a line first and last changed, and no edges"
                + " between; wanted the simulated bench. Leave --port out, or leave --vcd out.\n");
    Cli time = Cli.run("run", plan, "--port", "/dev/none", "--real-time");
    assertThat(time.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(time.err()).startsWith("--real-time: a real card takes its own time anyway;");
  }

  @Test
  void namesOfNetsAreCheckedAndGoWithAFile() {
    Path plan = Cli.demonstration(folder, "sum");
    Cli typo = Cli.run("run", plan, "--vcd", folder.resolve("a.vcd"), "--vcd-nets", "S[12],S[3]");
    assertThat(typo.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(typo.err()).startsWith("--vcd-nets: card sum has no ").contains("Did you mean 'S[");
    assertThat(folder.resolve("a.vcd")).doesNotExist();
    Cli alone = Cli.run("run", plan, "--vcd-nets", "S[3]");
    assertThat(alone.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(alone.err())
        .isEqualTo(
            "--vcd-nets: no file is asked for that it could be about; wanted --vcd FILE with"
                + " it.\n");
  }
}
