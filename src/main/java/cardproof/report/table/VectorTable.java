package cardproof.report.table;

import cardproof.log.BenchLog;
import cardproof.log.LineName;
import cardproof.log.MovedLine;
import cardproof.log.RunDetail;
import cardproof.log.RunTransitions;
import cardproof.log.StepTitle;
import cardproof.log.SupplyRecord;
import cardproof.log.VectorRecord;
import java.util.BitSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.stream.Collectors;

/** The vectors of a run as rows, and the lines that moved in them. Columns are only ever added. */
final class VectorTable {
  private final long run;
  private final List<LineName> lines;
  private final Map<Integer, StepTitle> steps;
  private final RunTransitions transitions;
  private final PoweredFor powered;
  private final BusWords driven;
  private final BusWords watched;
  private final BitSet allWatched = new BitSet();

  VectorTable(BenchLog log, RunDetail detail) {
    this.run = detail.summary().id();
    this.lines = detail.start().lines();
    this.steps = detail.steps().stream().collect(Collectors.toMap(StepTitle::step, s -> s));
    this.transitions = log.transitions(run);
    this.powered = new PoweredFor(log.powerOns(run));
    this.driven = new BusWords(lines, LineName::driven);
    this.watched = new BusWords(lines, LineName::watched);
    lines.stream().filter(LineName::watched).forEach(line -> allWatched.set(line.line()));
  }

  Row vector(VectorRecord vector) {
    StepTitle step = steps.get(vector.step());
    SupplyRecord supply = vector.supply();
    long transition = transitions.of(vector.number());
    return new Row()
        .put("run", run)
        .put("vector", vector.number() + 1)
        .put("at", step.origin(vector.indexInStep()))
        .put("title", step.title())
        .put("verdict", vector.verdict().word())
        .put("why", vector.why())
        .put("driven", driven.of(vector.level(), vector.driven()))
        .put("wanted", watched.of(vector.wanted(), vector.cared()))
        .put("seen", watched.of(vector.seen(), allWatched))
        .put("seen_before", watched.of(vector.before(), allWatched))
        .put("start_us", vector.startUs())
        .put("duration_us", vector.durationUs())
        .put("gap_us", vector.gapUs())
        .put("quiet_us", vector.quietUs())
        .put("powered_us", powered.us(vector))
        .put("powered_at_least", powered.atLeast())
        .put("rail_mv", number(supply.railMv()))
        .put("rail_low_mv", number(supply.lowestRailMv()))
        .put("current_ma", number(supply.currentMa()))
        .put("current_high_ma", number(supply.highestCurrentMa()))
        .put("current_expected_ma", number(supply.expectedMa()))
        .put(
            "transition",
            transition == RunTransitions.UNKNOWN ? null : HexFormat.of().toHexDigits(transition));
  }

  Row moved(VectorRecord vector, MovedLine moved) {
    LineName line = lines.get(moved.line());
    return new Row()
        .put("run", run)
        .put("vector", vector.number() + 1)
        .put("line", line.bus() + "[" + line.bit() + "]")
        .put("label", line.label())
        .put("pin", line.pin())
        .put("going", moved.endsHigh() ? "rising" : "falling")
        .put("first_us", moved.firstUs())
        .put("last_us", moved.lastUs())
        .put("changes", moved.changes())
        .put("moves", moved.moves())
        .put("cut", moved.censored())
        .put("by_fixture", moved.byFixture());
  }

  private static Object number(OptionalInt value) {
    return value.isPresent() ? value.getAsInt() : null;
  }
}
