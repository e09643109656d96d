package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.OutsideTools;
import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.files.CardFile;
import cardproof.link.Capability;
import cardproof.link.HelloReply;
import cardproof.log.BenchLog;
import cardproof.log.MovedLine;
import cardproof.log.VectorRecord;
import cardproof.report.VcdFile;
import cardproof.report.VcdReader;
import cardproof.text.RefusedException;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code run --capture}: edges that went through the frames of the link. */
class CaptureTest {
  private static final Path HOLD = Path.of("vectors", "hold", "bring-up.yaml");
  private static final long SAMPLING_NS = 50_000;

  @TempDir private Path folder;

  private Path log() {
    return folder.resolve("bench-log.sqlite");
  }

  private Cli run(Path plan, Object... more) {
    List<Object> words = new ArrayList<>(List.of("run", plan, "--log", log()));
    words.addAll(List.of(more));
    return Cli.run(words.toArray());
  }

  private List<VectorRecord> records(long run) {
    List<VectorRecord> records = new ArrayList<>();
    try (BenchLog log = BenchLog.openForReading(log())) {
      log.forEachVector(run, records::add);
    }
    return records;
  }

  /** As many edges of each line in each vector as the result counts, the first and last in time. */
  @Test
  void everyEdgeThatTheFixtureCountedIsThere() throws IOException {
    Path file = folder.resolve("seen.vcd");
    Path circuit = folder.resolve("circuit.vcd");
    Cli cli = run(HOLD, "--capture", file, "--vcd", circuit, "--only", "#quick");
    assertThat(cli.out()).contains("every edge that the fixture saw in " + file + "\n");
    VcdFile seen = VcdReader.read(Files.readString(file));
    VcdFile card = VcdReader.read(Files.readString(circuit));
    List<VectorRecord> records = records(1);
    long originUs = records.get(0).startUs();
    int edges = 0;
    for (VectorRecord record : records) {
      long startNs = (record.startUs() - originUs) * 1000;
      long endNs = startNs + record.durationUs() * 1000;
      assertThat(Long.parseLong(seen.signal("hold.vector.number").at(startNs), 2))
          .isEqualTo(record.number() + 1);
      assertThat(seen.signal("hold.fixture.watching").at(startNs)).isEqualTo("1");
      assertThat(Long.parseLong(seen.signal("hold.fixture.dropped").at(startNs), 2)).isZero();
      for (Line line : card().lines()) {
        if (line.bus().role().watched()) {
          List<Long> kept = edges(seen, line, startNs, endNs);
          Optional<MovedLine> moved =
              record.moved().stream().filter(m -> m.line() == line.index()).findFirst();
          assertThat(kept).hasSize(moved.map(MovedLine::changes).orElse(0));
          moved.ifPresent(
              m -> {
                assertThat(kept.get(0)).isEqualTo(startNs + m.firstUs() * 1000);
                assertThat(kept.get(kept.size() - 1)).isEqualTo(startNs + m.lastUs() * 1000);
              });
          List<Long> own =
              edges(card, line, record.startUs() * 1000 - SAMPLING_NS, endNs + originUs * 1000);
          for (long ns : kept) {
            long there = ns + originUs * 1000;
            assertThat(own).anyMatch(at -> at <= there && at > there - SAMPLING_NS - 1000);
          }
          edges += kept.size();
        }
      }
    }
    assertThat(edges).isGreaterThan(100);
    assertThat(seen.comments()).anyMatch(text -> text.contains("fixture.watching is 0"));
  }

  private static Card card() {
    return CardFile.read(HOLD.resolveSibling("card.yaml")).value();
  }

  private static List<Long> edges(VcdFile wave, Line line, long fromNs, long toNs) {
    VcdFile.Signal bus = wave.signal("hold.lines." + line.bus().name());
    List<Long> edges = new ArrayList<>();
    int at = bus.size() - 1 - line.bit();
    for (Map.Entry<Long, String> value :
        bus.values().subMap(fromNs, false, toNs, true).entrySet()) {
      Map.Entry<Long, String> before = bus.values().lowerEntry(value.getKey());
      if (before != null && before.getValue().charAt(at) != value.getValue().charAt(at)) {
        edges.add(value.getKey());
      }
    }
    return edges;
  }

  /** What is driven in the course of a vector stands at its time on the same clock. */
  @Test
  void drivesOfASequenceAreThereToTheMicrosecond() throws IOException {
    Path plan = folder.resolve("plan.yaml");
    Files.writeString(
        plan,
        "plan: timed\ncard: "
            + HOLD.resolveSibling("card.yaml").toAbsolutePath()
            + "\nsteps:\n"
            + "  - drive: {LD: 0, SEL: 0, D: 0}\n"
            + "  - sequence: {0 ms: {D: 5}, 150.123 ms: {LD: 1}, 300 ms: {LD: 0}, 450 ms: {D: released}}\n"
            + "    settle: 600 ms\n");
    Path file = folder.resolve("seen.vcd");
    assertThat(run(plan, "--capture", file).exitCode()).isEqualTo(ExitCode.PASSED);
    VcdFile seen = VcdReader.read(Files.readString(file));
    List<VectorRecord> records = records(1);
    long startNs = (records.get(1).startUs() - records.get(0).startUs()) * 1000;
    assertThat(seen.signal("hold.lines.LD").values())
        .containsEntry(startNs + 150_123_000, "1")
        .containsEntry(startNs + 300_000_000, "0");
    assertThat(seen.signal("hold.drives.D").values())
        .containsEntry(startNs, "000000000101")
        .containsEntry(startNs + 450_000_000, "000000000000");
  }

  @Test
  void theRunIsTheSameWithAndWithoutIt() {
    JsonObject with = json(run(HOLD, "--json", "--capture", folder.resolve("a.vcd")));
    JsonObject without = json(run(HOLD, "--json"));
    assertThat(with.get("capture").getAsString()).endsWith("a.vcd");
    assertThat(without.get("capture").isJsonNull()).isTrue();
    assertThat(with.get("verdicts")).isEqualTo(without.get("verdicts"));
    assertThat(with.get("proved")).isEqualTo(without.get("proved"));
  }

  private static JsonObject json(Cli cli) {
    return JsonParser.parseString(cli.out()).getAsJsonObject();
  }

  /** Contacts that come and go give more edges than a fixture keeps of one vector. */
  @Test
  void whatTheFixtureHadNoRoomForIsCountedAndNotMadeUp() throws IOException {
    List<Object> words = new ArrayList<>(List.of("--only", "one line at a time"));
    for (int bit = 0; bit < 12; bit++) {
      words.add("--fault");
      words.add("Q[" + bit + "] stuck at supply, in 50 % of spells of 150 us");
    }
    Path file = folder.resolve("seen.vcd");
    words.addAll(List.of("--capture", file));
    run(HOLD, words.toArray());
    VcdFile seen = VcdReader.read(Files.readString(file));
    Map.Entry<Long, String> dropped =
        seen.signal("hold.fixture.dropped").values().entrySet().stream()
            .filter(entry -> entry.getValue().contains("1"))
            .findFirst()
            .orElseThrow();
    long counted = Long.parseLong(dropped.getValue(), 2);
    VectorRecord record = records(1).get(0);
    long changes = record.moved().stream().mapToLong(MovedLine::changes).sum();
    assertThat(counted).isPositive().isLessThan(changes);
    assertThat(seen.signal("hold.lines.Q").values().values()).contains("x".repeat(12));
  }

  /** An independent reader: the converters of the Debian package gtkwave. */
  @Test
  void aConverterOfWavesGivesBackEveryEdge() throws Exception {
    OutsideTools.assumeInstalled("converter of waves", "gtkwave", "vcd2fst", "fst2vcd");
    Path file = folder.resolve("seen.vcd");
    run(HOLD, "--capture", file, "--only", "#quick");
    Path fst = folder.resolve("seen.fst");
    Path back = folder.resolve("back.vcd");
    OutsideTools.call(folder.resolve("said.txt"), "vcd2fst", file.toString(), fst.toString());
    OutsideTools.call(back, "fst2vcd", fst.toString());
    VcdFile ours = VcdReader.read(Files.readString(file));
    VcdFile theirs = VcdReader.read(Files.readString(back));
    assertThat(theirs.signals().keySet()).isEqualTo(ours.signals().keySet());
    ours.signals()
        .forEach(
            (name, signal) ->
                assertThat(theirs.signal(name).values()).as(name).isEqualTo(signal.values()));
    assertThat(ours.signal("hold.lines.Q").values()).hasSizeGreaterThan(50);
  }

  @Test
  void aBoardThatKeepsNoEdgesIsRefused() {
    HelloReply plain =
        new HelloReply(
            1,
            1,
            "1.0.0",
            1,
            7,
            0,
            24,
            24,
            4,
            128,
            3100,
            30,
            Capability.SEQUENCES.bit(),
            "Gull Point",
            0);
    WaveRequest request = new WaveRequest(folder.resolve("a.vcd"), false, List.of());
    assertThatThrownBy(() -> CapturedWave.start(null, request, plain))
        .isInstanceOf(RefusedException.class)
        .hasMessageContaining("--capture: the board 'Gull Point'")
        .hasMessageContaining("keeps no edges");
    assertThat(folder.resolve("a.vcd")).doesNotExist();
  }

  @Test
  void oneFileIsNotForBothWaves() {
    Path file = folder.resolve("a.vcd");
    Cli cli = run(HOLD, "--capture", file, "--vcd", file);
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err()).startsWith("--capture: it names the file of --vcd too");
  }
}
