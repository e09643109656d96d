package cardproof.cli;

import cardproof.card.Card;
import cardproof.report.CardWave;
import cardproof.run.Judged;
import cardproof.run.RunListener;
import cardproof.sim.SimulatedBench;
import cardproof.sim.WaveListener;
import cardproof.sim.circuit.NetLevel;
import cardproof.text.Micros;
import cardproof.text.Problem;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Brings a simulated bench's edges and a runner's verdicts together in one file. When the file
 * takes no more, as on a full disk, the run goes on without it.
 */
final class WaveRecording implements WaveListener, RunListener, AutoCloseable {
  /** Something that is told to the wave, and may fail on its way to the file. */
  private interface Entry {
    void write() throws IOException;
  }

  private final WaveRequest request;
  private final SimulatedBench bench;
  private final OutputStream out;
  private final CardWave wave;
  private final int[] lineOfDrive;
  private Optional<Problem> problem = Optional.empty();
  private boolean closed;

  private WaveRecording(
      RunSetup setup, WaveRequest request, SimulatedBench bench, OutputStream out) {
    Card card = setup.plan().card();
    this.request = request;
    this.bench = bench;
    this.out = out;
    this.lineOfDrive = setup.hookUp().lineOfDrive();
    this.wave =
        new CardWave(
            out, card, Version.text(), remarks(setup, bench), request.nets(), bench.fromWiring());
  }

  /**
   * Opens the file and shows in it what the bench does from now on.
   *
   * @throws cardproof.text.RefusedException where the file cannot be written
   */
  static WaveRecording start(RunSetup setup, WaveRequest request, SimulatedBench bench) {
    WaveRecording recording = new WaveRecording(setup, request, bench, WaveFile.open(request));
    bench.tap(recording);
    bench.watchDrives(recording::drivesSwitched);
    recording.drivesSwitched(bench.nowNs(), new BitSet());
    return recording;
  }

  /**
   * Writes what is left and closes the file; later edges are not shown. May be called twice.
   *
   * @return why the file ends before the run does, if so
   */
  Optional<Problem> ended() {
    close();
    return problem;
  }

  @Override
  public void lineChanged(long nowNs, int line, boolean level) {
    write(() -> wave.line(nowNs, line, level));
  }

  @Override
  public void netChanged(long nowNs, int net, NetLevel level) {
    if (level == NetLevel.WEAK) {
      write(() -> wave.netUnknown(nowNs, net));
    } else {
      write(() -> wave.net(nowNs, net, level == NetLevel.ONE));
    }
  }

  @Override
  public void supplyChanged(long nowNs, long millivolts, long microamps) {
    write(() -> wave.supply(nowNs, millivolts, microamps));
  }

  /** A run is one session, in which the n-th step is its n-th vector. */
  @Override
  public void stepStarted(long nowNs, int number) {
    write(() -> wave.vectorStarted(nowNs, Integer.toUnsignedLong(number)));
  }

  @Override
  public void judged(Judged judged) {
    write(() -> wave.judged(judged.vector().number(), judged.judgement().verdict()));
  }

  @Override
  public void superseded(Judged judged) {
    judged(judged);
  }

  @Override
  public void close() {
    if (!closed) {
      bench.catchUp();
      write(() -> wave.end(bench.nowNs()));
      closed = true;
      closeFile();
    }
  }

  private void closeFile() {
    try {
      out.close();
    } catch (IOException e) {
      failed(e);
    }
  }

  private void drivesSwitched(long nowNs, BitSet on) {
    for (int drive = 0; drive < lineOfDrive.length; drive++) {
      int line = lineOfDrive[drive];
      boolean driven = on.get(drive);
      if (line >= 0) {
        write(() -> wave.driven(nowNs, line, driven));
      }
    }
  }

  private void write(Entry entry) {
    if (closed || problem.isPresent()) {
      return;
    }
    try {
      entry.write();
    } catch (IOException e) {
      failed(e);
    }
  }

  private void failed(IOException e) {
    if (problem.isEmpty()) {
      String until = Micros.text(bench.nowNs() / 1_000);
      problem =
          Optional.of(
              new Problem(
                  request.file().toString(),
                  "the wave broke off " + until + " after its start: " + WaveFile.reason(e),
                  "a folder that you may write to, with room in it",
                  "The run itself went on and was recorded"));
    }
  }

  private static List<String> remarks(RunSetup setup, SimulatedBench bench) {
    Card card = setup.plan().card();
    List<String> remarks = new ArrayList<>();
    remarks.add(
        String.format(
            Locale.ROOT,
            "SIMULATED from its %s: card %s, unit %s, seed %d",
            bench.fromWiring() ? "wiring" : "behaviour",
            card.name(),
            setup.unit(),
            setup.seed()));
    remarks.add("plan: " + setup.plan().title());
    setup.faults().forEach(fault -> remarks.add("fault put in: " + fault.name()));
    remarks.add(
        "vector.verdict is text, 8 bits a letter; it stands from the start of its own vector");
    return remarks;
  }
}
