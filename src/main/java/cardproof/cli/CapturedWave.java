package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.fixture.Observation;
import cardproof.fixture.SeenEdge;
import cardproof.link.HelloReply;
import cardproof.log.Verdict;
import cardproof.plan.Moment;
import cardproof.plan.Vector;
import cardproof.report.CardWave;
import cardproof.run.Judged;
import cardproof.run.RunListener;
import cardproof.text.Micros;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Every edge that a fixture kept, vector after vector, on one time line that is the fixture's
 * clock. Between vectors it sees nothing: what a line became then stands at the start of the next.
 * When the file takes no more the run goes on without it.
 */
final class CapturedWave implements RunListener, AutoCloseable {
  private static final long NS_PER_US = 1_000;

  private final WaveRequest request;
  private final OutputStream out;
  private final CardWave wave;
  private final Card card;
  private final boolean[] watched;
  private Optional<Problem> problem = Optional.empty();
  private boolean begun;
  private boolean closed;
  private long originUs;
  private long nowNs;

  private CapturedWave(RunSetup setup, WaveRequest request, HelloReply hello, OutputStream out) {
    this.request = request;
    this.out = out;
    this.card = setup.plan().card();
    this.watched = new boolean[card.lines().size()];
    for (Line line : card.lines()) {
      watched[line.index()] = line.bus().role().watched();
    }
    this.wave = CardWave.captured(out, card, Version.text(), remarks(setup, hello));
  }

  /**
   * @throws RefusedException where the fixture keeps no edges, or the file cannot be written
   */
  static CapturedWave start(RunSetup setup, WaveRequest request, HelloReply hello) {
    if (!hello.captures()) {
      throw new RefusedException(
          new Problem(
              "--capture",
              "the board '"
                  + hello.board()
                  + "' tells when a line first and last changed, and keeps no edges between",
              "a fixture that keeps every edge of a vector",
              "Load firmware that does onto it, or leave --capture out"));
    }
    return new CapturedWave(setup, request, hello, WaveFile.open(request));
  }

  private static List<String> remarks(RunSetup setup, HelloReply hello) {
    List<String> remarks = new ArrayList<>();
    remarks.add(
        (RunStarts.simulated(setup, hello) ? "SIMULATED: " : "")
            + "card "
            + setup.plan().card().name()
            + ", unit "
            + setup.unit()
            + ", as the board "
            + hello.board()
            + " saw it, every "
            + hello.periodNs()
            + " ns");
    remarks.add("plan: " + setup.plan().title());
    setup.faultNames().forEach(fault -> remarks.add("fault put in: " + fault));
    remarks.add(
        "fixture.watching is 0 in the gaps between vectors, where no edge is seen: what a line became"
            + " there stands at the start of the next vector");
    remarks.add(
        "fixture.dropped counts the edges of a vector that the fixture had no room for; from the last"
            + " one kept to the end of that vector the lines are x");
    remarks.add(
        "vector.verdict is text, 8 bits a letter; it stands from the start of its own vector");
    return remarks;
  }

  @Override
  public void judged(Judged judged) {
    boolean seen = judged.judgement().verdict() != Verdict.UNTESTED;
    if (closed || problem.isPresent() || !seen) {
      return;
    }
    try {
      write(judged.vector(), judged.observation());
      verdict(judged);
    } catch (IOException e) {
      failed(e);
    }
  }

  @Override
  public void superseded(Judged judged) {
    if (!closed && problem.isEmpty() && judged.judgement().verdict() != Verdict.UNTESTED) {
      try {
        verdict(judged);
      } catch (IOException e) {
        failed(e);
      }
    }
  }

  private void verdict(Judged judged) throws IOException {
    wave.judged(judged.vector().number(), judged.judgement().verdict());
  }

  private void write(Vector vector, Observation seen) throws IOException {
    long startNs = startNs(seen);
    wave.vectorStarted(startNs, vector.number());
    wave.watching(startNs, true);
    wave.dropped(startNs, seen.edgesUnkept());
    for (Line line : card.lines()) {
      if (watched[line.index()]) {
        wave.line(startNs, line.index(), bit(seen.before(), line));
      }
    }
    drives(startNs, vector.level(), vector.enabled());
    int next = 0;
    for (Moment moment : vector.later()) {
      next = edges(seen, next, startNs, moment.atUs());
      if (moment.atUs() <= seen.durationUs()) {
        drives(at(startNs, moment.atUs()), moment.level(), moment.enabled());
      }
    }
    edges(seen, next, startNs, Long.MAX_VALUE);
    if (seen.edgesUnkept() > 0) {
      for (Line line : card.lines()) {
        if (watched[line.index()]) {
          wave.lineUnknown(nowNs + 1, line.index());
        }
      }
    }
    end(at(startNs, seen.durationUs()), seen);
  }

  /** A clock that went back was begun anew: what comes now follows upon what was. */
  private long startNs(Observation seen) {
    boolean anew = begun && (seen.startUs() - originUs) * NS_PER_US < nowNs;
    if (!begun || anew) {
      originUs = seen.startUs() - (anew ? nowNs / NS_PER_US + 1 : 0);
      begun = true;
    }
    long startNs = (seen.startUs() - originUs) * NS_PER_US;
    nowNs = startNs;
    return startNs;
  }

  /** Those up to a time; returns which comes next. */
  private int edges(Observation seen, int from, long startNs, long untilUs) throws IOException {
    int next = from;
    while (next < seen.edges().size() && seen.edges().get(next).atUs() < untilUs) {
      SeenEdge edge = seen.edges().get(next++);
      wave.line(at(startNs, edge.atUs()), edge.line().index(), edge.level());
    }
    return next;
  }

  /** What the fixture drives; of a line that it does not watch that is all there is to show. */
  private void drives(long atNs, long[] level, long[] enabled) throws IOException {
    for (Line line : card.lines()) {
      boolean on = bit(level, line) && bit(enabled, line);
      if (!watched[line.index()]) {
        wave.line(atNs, line.index(), on);
      }
      wave.driven(atNs, line.index(), on);
    }
  }

  private void end(long atNs, Observation seen) throws IOException {
    for (Line line : card.lines()) {
      if (watched[line.index()]) {
        wave.line(atNs, line.index(), bit(seen.seen(), line));
      }
    }
    wave.watching(atNs, false);
  }

  private long at(long startNs, long us) {
    nowNs = Math.max(nowNs, startNs + us * NS_PER_US);
    return nowNs;
  }

  private static boolean bit(long[] byBus, Line line) {
    return (byBus[line.busIndex()] >>> line.bit() & 1) != 0;
  }

  /**
   * Writes what is left and closes the file. May be called twice.
   *
   * @return why the file ends before the run does, if so
   */
  Optional<Problem> ended() {
    close();
    return problem;
  }

  @Override
  public void close() {
    if (closed) {
      return;
    }
    closed = true;
    try {
      if (problem.isEmpty()) {
        wave.end(nowNs);
      }
      out.close();
    } catch (IOException e) {
      failed(e);
    }
  }

  private void failed(IOException e) {
    if (problem.isEmpty()) {
      problem =
          Optional.of(
              new Problem(
                  request.file().toString(),
                  "the wave broke off "
                      + Micros.text(nowNs / NS_PER_US)
                      + " after its start: "
                      + WaveFile.reason(e),
                  "a folder that you may write to, with room in it",
                  "The run itself went on and was recorded"));
    }
  }
}
