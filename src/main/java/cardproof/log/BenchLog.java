package cardproof.log;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;

/**
 * A bench log, open. Several processes may have the same log open; one writes at a time, and a
 * second one waits up to 5 s for its turn before it says "locked". Readers never wait.
 *
 * <p>Confined to one thread at a time; a second thread opens the log a second time. While a run is
 * being written, readings of the same object see vectors that are not committed yet, without the
 * lines that moved in them. Every method throws {@link LogException} when the file or its disk
 * fails.
 */
public final class BenchLog implements AutoCloseable {
  private static final int BUSY_TIMEOUT_MS = 5000;

  private final Db db;
  private final Clock clock;
  private final RunRows runs;
  private final VectorReader vectors;
  private final AskedRows asked;
  private Optional<RunWriter> writer = Optional.empty();
  private Optional<SettleRows> settles = Optional.empty();

  BenchLog(Db db, Clock clock, ProcessStamp here) {
    this.db = db;
    this.clock = clock;
    this.runs = new RunRows(db, here);
    this.vectors = new VectorReader(db);
    this.asked = new AskedRows(db);
  }

  /**
   * Opens a log for writing and reading, and creates it where there is none.
   *
   * @param clock tells when a run failed that nobody ended
   */
  public static BenchLog open(Path file, Clock clock) {
    LogFile log = new LogFile(file, BUSY_TIMEOUT_MS, Schema.current());
    return new BenchLog(log.openForWriting(), clock, ProcessStamp.own());
  }

  /** Opens a log that exists, for reading alone. */
  public static BenchLog openForReading(Path file) {
    LogFile log = new LogFile(file, BUSY_TIMEOUT_MS, Schema.current());
    return new BenchLog(log.openForReading(), Clock.systemUTC(), ProcessStamp.own());
  }

  /** Begins a run of a whole plan. */
  public RunWriter begin(RunStart start) {
    return begin(start, RunAsked.wholePlan());
  }

  /** Begins a run, which is durable when this returns. One run is written at a time. */
  public RunWriter begin(RunStart start, RunAsked what) {
    if (writer.filter(last -> !last.ended()).isPresent()) {
      throw new IllegalStateException("run " + writer.get().runId() + " has not ended");
    }
    long[] run = new long[1];
    db.write(
        () -> {
          sortInLeftBehind();
          run[0] = runs.insert(start);
          asked.insert(run[0], what);
        });
    writer = Optional.of(new RunWriter(db, clock, run[0], start.lines().size()));
    return writer.get();
  }

  /** What a process that died could not sort in any more. */
  private void sortInLeftBehind() {
    if (db.number("SELECT EXISTS (SELECT 1 FROM moved_recent)") != 0) {
      db.script(MovedRows.SORT_IN_RECENT);
      db.script(MovedRows.EMPTY_RECENT);
    }
  }

  /** Runs, newest first. */
  public List<RunSummary> runs(RunFilter filter) {
    return db.snapshot(() -> runs.list(filter));
  }

  /** A run without its vectors; empty where there is none of this id. */
  public Optional<RunDetail> run(long id) {
    return db.snapshot(() -> runs.detail(id));
  }

  /** The lines of the card as a run named them; empty where there is no such run. */
  public List<LineName> lines(long run) {
    return runs.lines(run);
  }

  /** Hands on every vector of a run in order, reading a few hundred at a time. */
  public void forEachVector(long run, Consumer<VectorRecord> consumer) {
    vectors.each(run, 0, consumer);
  }

  /**
   * Hands on number and verdict of every vector of a run in order, and nothing else of them. The
   * sink must not write to this log.
   */
  public void forEachVerdict(long run, VerdictSink sink) {
    db.scan(
        "SELECT number, verdict FROM vector WHERE run = ? ORDER BY number",
        row -> sink.accept(row.getLong(1), Verdict.ofCode(row.getInt(2))),
        run);
  }

  /** What the sweeps of a run found, in order. */
  public List<SweepRecord> sweeps(long run) {
    return db.snapshot(() -> new SweepRows(db).read(run));
  }

  /** What was asked for of the plan. */
  public RunAsked asked(long run) {
    return asked.read(run);
  }

  /** The run that continues this one. */
  public OptionalLong continuedBy(long run) {
    return asked.continuedBy(run);
  }

  /** A run and those that it continues, the first of them first. */
  public List<RunPart> parts(long run) {
    return db.snapshot(() -> asked.parts(run));
  }

  /**
   * Hands on, in order, the record that holds for every vector of a run and of those that it
   * continues.
   */
  public void forEachVectorOfAll(long run, Consumer<VectorRecord> consumer) {
    for (RunPart part : parts(run)) {
      vectors.each(
          part.run(),
          part.from(),
          vector -> {
            if (part.holds(vector.number())) {
              consumer.accept(vector);
            }
          });
    }
  }

  /** One vector with its moved lines. */
  public Optional<VectorRecord> vector(long run, long number) {
    return vectors.one(run, number);
  }

  /**
   * The first vectors of a run that did not pass, untested ones among them; none that was only
   * measured.
   */
  public List<VectorRecord> failures(long run, int limit) {
    return vectors.notPassed(run, limit);
  }

  /** Records of a run that later ones took the place of, by vector, the first of each first. */
  public List<Superseded> superseded(long run) {
    return vectors.superseded(run);
  }

  /** How many records of a run later ones took the place of. */
  public long supersededCount(long run) {
    return db.number("SELECT count(*) FROM vector_superseded WHERE run = ?", run);
  }

  /**
   * Whether a silence of the run was as long as its quiet window, or a record of it was replaced: a
   * card may then have been called settled too early.
   */
  public boolean settledTooEarly(long run) {
    return db.number(
            "SELECT EXISTS (SELECT 1 FROM vector_superseded WHERE run = ?1) OR EXISTS (SELECT 1 FROM"
                + " vector WHERE run = ?1 AND gap_us >= quiet_us AND gap_us > 0 AND quiet_us > 0)",
            run)
        != 0;
  }

  /**
   * The silences of a run that came before a change; empty where nothing moved.
   *
   * @param share of its quiet window above which a silence counts as narrow
   */
  public Optional<LongestSilence> longestSilence(long run, double share) {
    return vectors.longestSilence(run, share);
  }

  /**
   * Hands on every vector in which a line moved and ended so, in order, row by row. The consumer
   * must not write to this log.
   */
  public void forEachMovement(
      long run, int line, boolean endsHigh, Consumer<LineMovement> consumer) {
    db.each(MovedRows.OF_LINE, MovedRows::read, consumer, run, line, endsHigh ? 1 : 0);
  }

  /**
   * Hands on every settle time of a run that is the card's own: by line, falling before rising, in
   * the order of the vectors. The sink must not write to this log.
   */
  public void forEachSettle(long run, SettleSink sink) {
    settles().read(run, sink);
  }

  /** The transition of every vector of a run. */
  public RunTransitions transitions(long run) {
    return db.snapshot(() -> new TransitionRows(db).of(run));
  }

  /** When the card's supply came on in a run, or was found on, in the order of the vectors. */
  public List<PowerOn> powerOns(long run) {
    return db.list(
        "SELECT vector, how FROM power_on WHERE run = ? ORDER BY vector",
        row -> new PowerOn(row.getLong(1), PowerOn.How.ofCode(row.getInt(2))),
        run);
  }

  /** By how many millionths the fixture's clock ran faster than the computer's, where compared. */
  public OptionalLong clockOffPpm(long run) {
    return db
        .list(
            "SELECT clock_off_ppm FROM run WHERE run = ? AND clock_off_ppm IS NOT NULL",
            row -> row.getLong(1),
            run)
        .stream()
        .mapToLong(Long::longValue)
        .findFirst();
  }

  /** What the supply current said of the card in a run. */
  public List<SupplyFinding> supplyFindings(long run) {
    return db.list(
        "SELECT vector, words FROM run_supply_finding WHERE run = ? ORDER BY position",
        row -> new SupplyFinding(row.getLong(1), row.getString(2)),
        run);
  }

  private SettleRows settles() {
    if (settles.isEmpty()) {
      settles = Optional.of(new SettleRows(db));
    }
    return settles.get();
  }

  /** Notes a repair; inside an open run it becomes durable with the run's next commit. */
  public void addRework(UnitId unit, String note, Instant at) {
    addRework(new Rework(unit, note, at, List.of()));
  }

  /** Notes a repair with its pictures. */
  public void addRework(Rework rework) {
    db.write(() -> new ReworkRows(db).insert(rework));
  }

  /** Repairs of exactly this unit, the earliest first. */
  public List<Rework> reworks(UnitId unit) {
    return db.snapshot(() -> new ReworkRows(db).of(unit));
  }

  /**
   * Takes the runs and rework notes of another log that are not here yet. All of them are taken, or
   * none when it fails.
   *
   * @param other a log; it is brought up to date where it is behind, and else not changed
   */
  public Merged merge(Path other) {
    Set<Long> unfinished;
    try (BenchLog log = openForReading(other)) {
      unfinished = log.unfinished(); // and it is of this version now
    }
    return new LogMerge(db).take(other, unfinished);
  }

  /** Runs that started before a moment and that no later run goes on from; not unfinished ones. */
  public List<Long> forgettable(Instant before) {
    return new LogForget(db).before(before, unfinished());
  }

  private Set<Long> unfinished() {
    return runs(RunFilter.real().bench(RunFilter.Bench.BOTH)).stream()
        .filter(run -> run.end() == RunEnd.RUNNING)
        .map(RunSummary::id)
        .collect(Collectors.toSet());
  }

  /** Takes runs out of the log for good, and gives their room on the disk back. */
  public void forget(List<Long> runs) {
    new LogForget(db).forget(runs);
  }

  /** Ends a run that is still being written, as its own close does, then closes the file. */
  @Override
  public void close() {
    try (db) {
      writer.ifPresent(RunWriter::close);
      settles.ifPresent(SettleRows::close);
    }
  }
}
