package cardproof.firmware;

import cardproof.link.HelloReply;
import cardproof.link.HostLink;
import cardproof.link.LinkEvent;
import cardproof.link.OpenRequest;
import cardproof.link.Result;
import cardproof.link.StepRequest;
import cardproof.link.Wire;
import cardproof.link.serial.SerialWire;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.function.IntFunction;

/** A host that keeps every slot of the chip full, so that both directions of the line are busy. */
final class StepsOnChip implements AutoCloseable {
  private static final int BAUD = 250_000;
  private static final int HELLO_TRIES = 50;
  private static final long PATIENCE_NS = 5_000_000_000L;

  private final Wire wire;
  private final HostLink link;

  /** Through a port, in real time. */
  StepsOnChip(Path port) {
    this(SerialWire.open(port.toString(), BAUD));
  }

  /** In step with the chip. */
  StepsOnChip(ChipBench bench) {
    this(new LockStepWire(bench));
  }

  private StepsOnChip(Wire wire) {
    this.wire = wire;
    link = HostLink.connect(wire, new Random(1), HELLO_TRIES);
  }

  HelloReply hello() {
    return link.hello();
  }

  HostLink link() {
    return link;
  }

  /** On the clock that {@link HostLink#await} is given times of. */
  long nowNs() {
    return wire.nowNs();
  }

  void arm(int chatterMoves, int silenceMs, long holdMs) {
    link.open(
        new OpenRequest(
            silenceMs,
            chatterMoves,
            60_000,
            2_000,
            holdMs,
            all(link.hello().drives()),
            all(link.hello().watches())));
    link.renewLease();
    link.arm();
  }

  /** The program is gone without a word, and beats no more. */
  void vanish() {
    wire.close();
  }

  /** Waits for whatever comes next. */
  LinkEvent next() {
    link.renewLease();
    return link.attend(wire.nowNs() + PATIENCE_NS);
  }

  /** Submits one step that switches these drives and is watched for so long. */
  void submit(BitSet on, Lines lines, long watchUs, long quietUs) {
    link.submit(step(on, lines, watchUs, quietUs, false));
  }

  /** Runs so many steps, each with these drives, and returns what each did. */
  List<Result> run(int steps, IntFunction<BitSet> drives, Lines lines, long watchUs, long quietUs) {
    List<Result> results = new ArrayList<>();
    int submitted = 0;
    while (results.size() < steps) {
      link.renewLease();
      while (submitted < steps && link.hasRoom()) {
        link.submit(step(drives.apply(submitted++), lines, watchUs, quietUs, false));
      }
      LinkEvent event = link.attend(wire.nowNs() + PATIENCE_NS);
      if (!(event instanceof LinkEvent.ResultArrived arrived)) {
        throw new AssertionError("step " + results.size() + ": " + event);
      }
      results.add(arrived.result());
      link.acknowledge(results.size());
    }
    return results;
  }

  /** One step of which every edge is kept. */
  LinkEvent.ResultArrived captured(BitSet on, Lines lines, long watchUs, long quietUs) {
    link.renewLease();
    int number = link.submit(step(on, lines, watchUs, quietUs, true));
    LinkEvent event = link.attend(wire.nowNs() + PATIENCE_NS);
    if (!(event instanceof LinkEvent.ResultArrived arrived)) {
      throw new AssertionError("step " + number + ": " + event);
    }
    link.acknowledge(number + 1);
    return arrived;
  }

  private StepRequest step(BitSet on, Lines lines, long watchUs, long quietUs, boolean capture) {
    return new StepRequest(
        false,
        false,
        false,
        capture,
        watchUs,
        watchUs,
        quietUs,
        0,
        on,
        all(link.hello().drives()),
        lines.follow(on),
        lines.watches(),
        new BitSet(),
        List.of());
  }

  private static BitSet all(int count) {
    BitSet set = new BitSet();
    set.set(0, count);
    return set;
  }

  @Override
  public void close() {
    link.close();
    wire.close();
  }
}
