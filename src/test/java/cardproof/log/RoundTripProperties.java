package cardproof.log;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;

/** Whatever is written comes back the same, whenever it is committed and however often opened. */
final class RoundTripProperties {
  private static final int LINES = 70;
  private static Path directory;

  @BeforeContainer
  static void create() throws IOException {
    directory = Files.createTempDirectory("bench-log-properties");
  }

  @AfterContainer
  static void delete() throws IOException {
    try (var files = Files.list(directory)) {
      for (Path file : files.toList()) {
        Files.delete(file);
      }
    }
    Files.delete(directory);
  }

  @Property(tries = 100)
  void vectorsComeBack(
      @ForAll("records") List<VectorRecord> records, @ForAll("sets") BitSet commitAfter) {
    Path file = directory.resolve("vectors.bench");
    long run;
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK);
        RunWriter writer = log.begin(start(UnitId.real("store", "1"), "", Map.of()))) {
      run = writer.runId();
      for (int i = 0; i < records.size(); i++) {
        if (i == 0 || records.get(i).step() != records.get(i - 1).step()) {
          writer.step(new StepTitle(records.get(i).step(), "plan.yaml", 1, ""));
        }
        writer.append(records.get(i));
        if (commitAfter.get(i)) {
          writer.commit();
        }
      }
      writer.end(RunEnd.FINISHED, "", SumCard.NOON);
    }
    try (BenchLog log = BenchLog.openForReading(file)) {
      List<VectorRecord> read = new ArrayList<>();
      log.forEachVector(run, read::add);
      assertThat(read).isEqualTo(records);
      assertThat(log.failures(run, Integer.MAX_VALUE))
          .isEqualTo(
              records.stream()
                  .filter(r -> r.verdict() != Verdict.PASS && r.verdict() != Verdict.MEASURED)
                  .toList());
    }
  }

  @Property(tries = 100)
  void runsComeBack(
      @ForAll("texts") String text,
      @ForAll("hashes") Map<String, String> hashes,
      @ForAll boolean simulated,
      @ForAll long seed) {
    Path file = directory.resolve("runs.bench");
    RunStart start = start(new UnitId(text, text, simulated), text, hashes);
    start = withSeed(start, simulated ? OptionalLong.of(seed) : OptionalLong.empty());
    try (BenchLog log = BenchLog.open(file, SumCard.CLOCK)) {
      try (RunWriter writer = log.begin(start)) {
        assertThat(log.run(writer.runId()).orElseThrow().start()).isEqualTo(start);
      }
      assertThat(log.runs(RunFilter.of(start.unit())))
          .isNotEmpty()
          .allSatisfy(summary -> assertThat(summary.planTitle()).isEqualTo(text));
    }
  }

  private static RunStart start(UnitId unit, String text, Map<String, String> hashes) {
    return new RunStart(
        unit,
        text,
        text,
        text,
        Long.MAX_VALUE,
        false,
        OptionalLong.empty(),
        new FixtureUsed(text, text, Long.MIN_VALUE, Long.MAX_VALUE, text),
        text,
        unit.simulated() ? List.of(text, text) : List.of(),
        hashes,
        text,
        text,
        IntStream.range(0, LINES)
            .mapToObj(i -> new LineName(i, text, i, text, text, i % 2 == 0, i % 3 == 0))
            .toList(),
        Instant.ofEpochSecond(1_700_000_000, 123_456_789));
  }

  private static RunStart withSeed(RunStart start, OptionalLong seed) {
    return new RunStart(
        start.unit(),
        start.cardTitle(),
        start.plan(),
        start.planTitle(),
        start.plannedVectors(),
        start.partial(),
        seed,
        start.fixture(),
        start.note(),
        start.faults(),
        start.fileHashes(),
        start.limitsJson(),
        start.hookupJson(),
        start.lines(),
        start.started());
  }

  /** Any text that UTF-8 can hold: all but lone surrogates. */
  @Provide
  Arbitrary<String> texts() {
    return Arbitraries.strings().all().ofMaxLength(30).filter(RoundTripProperties::isWhole);
  }

  private static boolean isWhole(String text) {
    return text.codePoints().noneMatch(c -> c >= 0xD800 && c <= 0xDFFF);
  }

  @Provide
  Arbitrary<Map<String, String>> hashes() {
    return Arbitraries.maps(texts(), Arbitraries.strings().numeric().ofLength(64)).ofMaxSize(4);
  }

  @Provide
  Arbitrary<BitSet> sets() {
    return Arbitraries.integers().between(0, LINES - 1).set().map(RoundTripProperties::bits);
  }

  private static BitSet bits(Iterable<Integer> numbers) {
    BitSet set = new BitSet();
    numbers.forEach(set::set);
    return set;
  }

  @Provide
  Arbitrary<List<VectorRecord>> records() {
    return Combinators.combine(
            Arbitraries.of(Verdict.class),
            texts(),
            Arbitraries.longs().list().ofSize(4),
            sets().list().ofSize(6),
            movedLines())
        .as(RoundTripProperties::atZero)
        .list()
        .ofMaxSize(12)
        .map(RoundTripProperties::numbered);
  }

  private Arbitrary<List<MovedLine>> movedLines() {
    return Combinators.combine(
            Arbitraries.integers().between(0, LINES - 1),
            Arbitraries.of(true, false),
            Arbitraries.longs(),
            Arbitraries.longs(),
            Arbitraries.integers(),
            Arbitraries.integers(),
            Arbitraries.of(true, false),
            Arbitraries.of(true, false))
        .as(MovedLine::new)
        .list()
        .ofMaxSize(8)
        .map(
            lines ->
                List.copyOf(
                    lines.stream()
                        .collect(
                            Collectors.toMap(
                                MovedLine::line, Function.identity(), (first, again) -> first))
                        .values()));
  }

  private static VectorRecord atZero(
      Verdict verdict, String why, List<Long> us, List<BitSet> sets, List<MovedLine> moved) {
    return new VectorRecord(
        0,
        0,
        0,
        verdict,
        why,
        us.get(0),
        us.get(1),
        us.get(2),
        us.get(3),
        sets.get(0),
        sets.get(1),
        sets.get(2),
        sets.get(3),
        sets.get(4),
        sets.get(5),
        moved,
        supply(us));
  }

  /** Anything, with every second figure left out now and then. */
  private static SupplyRecord supply(List<Long> from) {
    return new SupplyRecord(
        figure(from.get(0)),
        figure(from.get(1)),
        figure(from.get(2)),
        figure(from.get(3)),
        figure(from.get(0) / 2));
  }

  private static OptionalInt figure(long from) {
    return from % 2 == 0 ? OptionalInt.empty() : OptionalInt.of((int) (from % 65_535));
  }

  /** Numbers with gaps, three vectors to a step. */
  private static List<VectorRecord> numbered(List<VectorRecord> records) {
    return IntStream.range(0, records.size())
        .mapToObj(i -> numbered(records.get(i), 7L * i, i / 3, i % 3))
        .toList();
  }

  private static VectorRecord numbered(VectorRecord r, long number, int step, int index) {
    return new VectorRecord(
        number,
        step,
        index,
        r.verdict(),
        r.why(),
        r.startUs(),
        r.durationUs(),
        r.gapUs(),
        r.quietUs(),
        r.driven(),
        r.level(),
        r.wanted(),
        r.cared(),
        r.seen(),
        r.before(),
        r.moved(),
        r.supply());
  }
}
