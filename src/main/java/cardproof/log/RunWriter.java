package cardproof.log;

import cardproof.text.Problem;
import java.sql.PreparedStatement;
import java.time.Clock;
import java.time.Instant;
import java.util.BitSet;
import java.util.Optional;
import java.util.OptionalLong;

/**
 * Writes one run. Appended records become durable together at {@link #commit}, which survives the
 * death of the process; whoever acknowledges a vector to the fixture commits first. Between the
 * first append and the commit no other process can write to the log.
 *
 * <p>When the disk is full or fails, what was not committed is dropped, and every later call but
 * {@link #close} says so again. Confined to one thread at a time, the one of its {@link BenchLog}.
 */
public final class RunWriter implements AutoCloseable {
  private final Db db;
  private final Clock clock;
  private final long run;
  private final int lines;
  private final PreparedStatement insertVector;
  private final MovedWriter moved;
  private final BitSet steps = new BitSet();
  private final Transitions transitions = new Transitions();
  private boolean ended;
  private Optional<Problem> broken = Optional.empty();

  RunWriter(Db db, Clock clock, long run, int lines) {
    this.db = db;
    this.clock = clock;
    this.run = run;
    this.lines = lines;
    this.insertVector = db.prepare(VectorRows.INSERT);
    this.moved = new MovedWriter(db, run);
  }

  public long runId() {
    return run;
  }

  /** Whether {@link #end} was called. */
  boolean ended() {
    return ended;
  }

  /** Tells of a step, once, before its first vector. */
  public void step(StepTitle title) {
    if (steps.get(title.step())) {
      throw new IllegalArgumentException("step " + title.step() + " is told of twice");
    }
    write(
        () ->
            db.update(
                "INSERT INTO run_step (run, step, file, line, title, called_at) VALUES (?,?,?,?,?,?)",
                run,
                title.step(),
                title.file(),
                title.line(),
                title.title(),
                title.calledAt()));
    steps.set(title.step());
  }

  /** Adds a record to what the next commit makes durable. */
  public void append(VectorRecord record) {
    requireKnown(record);
    write(
        () ->
            insert(
                record,
                transitions.next(
                    record.driven(), record.level(), record.before(), record.verdict())));
  }

  /** Adds what a sweep found to what the next commit makes durable. */
  public void sweep(SweepRecord sweep) {
    if (!steps.get(sweep.step())) {
      throw new IllegalArgumentException("step " + sweep.step() + " was not told of");
    }
    write(() -> new SweepRows(db).insert(run, sweep));
  }

  /**
   * Adds what the current said of the card to what the next commit makes durable.
   *
   * @param position from 0, each once
   */
  public void finding(int position, SupplyFinding finding) {
    write(
        () ->
            db.update(
                "INSERT INTO run_supply_finding VALUES (?,?,?,?)",
                run,
                position,
                finding.vector(),
                finding.words()));
  }

  /**
   * Adds that the card's supply came on, or was found on, to what the next commit makes durable.
   */
  public void powerOn(PowerOn power) {
    write(
        () ->
            db.update(
                "INSERT OR REPLACE INTO power_on VALUES (?,?,?)",
                run,
                power.vector(),
                power.how().code()));
  }

  /**
   * Adds how the two clocks compared to what the next commit makes durable.
   *
   * @param ppm by how many millionths the fixture's ran faster than this computer's
   */
  public void clockOff(long ppm) {
    write(() -> db.update("UPDATE run SET clock_off_ppm = ? WHERE run = ?", ppm, run));
  }

  /** Makes everything appended so far durable. Does nothing where there is nothing. */
  public void commit() {
    requireOpen();
    if (!db.inTransaction()) {
      return;
    }
    write(moved::beforeCommit);
    guarded(db::commit);
  }

  /**
   * Puts a record in the place of the one of the same number, because the card moved after that one
   * was judged. The earlier one is kept beside it with the reason.
   */
  public void supersede(VectorRecord record, String why) {
    requireKnown(record);
    write(moved::beforeCommit);
    VectorRecord earlier =
        new VectorReader(db)
            .one(run, record.number())
            .orElseThrow(
                () -> new IllegalArgumentException("no vector " + record.number() + " so far"));
    write(
        () -> {
          OptionalLong transition = new TransitionRows(db).one(run, record.number());
          setAside(earlier, why);
          insert(record, transition);
        });
  }

  /**
   * Ends the run and makes all of it durable; nothing may be appended after.
   *
   * @param end not {@code RUNNING} and not {@code INTERRUPTED}
   * @param why in words; may be empty
   * @param at kept to the microsecond
   */
  public void end(RunEnd end, String why, Instant at) {
    if (!end.isFinal()) {
      throw new IllegalArgumentException("a run cannot be ended as " + end);
    }
    requireOpen();
    write(
        () -> {
          moved.sortIn();
          finish(end, why, at);
        });
    guarded(db::commit);
    ended = true;
  }

  /**
   * Ends a run that nobody ended: it failed. Of a run that broke off because the log could not be
   * written, what is durable stays, and it is tried once more to write that it failed.
   */
  @Override
  public void close() {
    if (!ended) {
      ended = true;
      String why = broken.map(Problem::toString).orElse("closed before its end");
      guarded(
          () -> {
            beginWhereNeeded();
            if (broken.isEmpty()) {
              moved.sortIn(); // else there may be no room for it
            }
            finish(RunEnd.FAILED, why, clock.instant());
            db.commit();
          });
    }
    db.run(insertVector::close);
    moved.close();
  }

  private void finish(RunEnd end, String why, Instant at) {
    db.update(
        "INSERT INTO run_tally SELECT run, verdict, count(*) FROM vector WHERE run = ?"
            + " GROUP BY verdict",
        run);
    db.update(
        "UPDATE run SET ending = ?, why = ?, ended_us = ? WHERE run = ?",
        end.code(),
        why,
        Micros.of(at),
        run);
  }

  private void insert(VectorRecord record, OptionalLong transition) {
    db.run(
        () -> {
          VectorRows.bind(insertVector, run, record, transition);
          insertVector.executeUpdate();
        });
    moved.add(record);
  }

  private void setAside(VectorRecord earlier, String why) {
    long number = earlier.number();
    int revision =
        (int)
            db.number(
                "SELECT count(*) FROM vector_superseded WHERE run = ? AND number = ?", run, number);
    db.update(VectorRows.SUPERSEDE, revision, why, run, number);
    moved.remove(number);
    for (MovedLine line : earlier.moved()) {
      db.run(
          () -> {
            try (PreparedStatement statement = db.prepare(MovedRows.INSERT_SUPERSEDED)) {
              statement.setLong(1, run);
              statement.setInt(2, revision);
              MovedRows.bind(statement, 3, number, line);
              statement.executeUpdate();
            }
          });
      db.update(
          "DELETE FROM moved WHERE run = ? AND line = ? AND ends_high = ? AND number = ?",
          run,
          line.line(),
          line.endsHigh() ? 1 : 0,
          number);
    }
    db.update("DELETE FROM moved_recent WHERE run = ? AND number = ?", run, number);
    db.update("DELETE FROM vector WHERE run = ? AND number = ?", run, number);
  }

  /** Work in the open transaction, which is left open. */
  private void write(Runnable work) {
    requireOpen();
    guarded(
        () -> {
          beginWhereNeeded();
          work.run();
        });
  }

  private void beginWhereNeeded() {
    if (!db.inTransaction()) {
      db.begin();
    }
  }

  /** A failure drops what was not committed and is remembered. */
  private void guarded(Runnable work) {
    try {
      work.run();
    } catch (LogException e) {
      broken = Optional.of(e.problem());
      try {
        db.rollback();
      } catch (LogException again) {
        e.addSuppressed(again);
      }
      throw e;
    }
  }

  private void requireOpen() {
    if (ended) {
      throw new IllegalStateException("run " + run + " has ended");
    }
    if (broken.isPresent()) {
      throw new LogException(broken.get());
    }
  }

  private void requireKnown(VectorRecord record) {
    if (!steps.get(record.step())) {
      throw new IllegalArgumentException("step " + record.step() + " was not told of");
    }
    for (MovedLine line : record.moved()) {
      if (line.line() < 0 || line.line() >= lines) {
        throw new IllegalArgumentException("line " + line.line() + " of " + lines);
      }
    }
  }
}
