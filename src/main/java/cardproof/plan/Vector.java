package cardproof.plan;

import cardproof.bits.WordText;
import cardproof.card.Bus;
import cardproof.card.Card;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One pattern with what must come back and by when. All arrays go by bus index and are not to be
 * written to.
 *
 * @param number over the whole plan, from 0
 * @param stepNumber of its step, in the order in which steps are written, from 0
 * @param index within its step, over all repeats, from 0
 * @param phase which vector of a pulse it is
 * @param row of the step's table, -1 where there is none
 * @param level lines driven to 1
 * @param enabled lines driven at all; the others are released
 * @param expect levels that should come
 * @param care bits that are judged
 * @param later what is driven in the course of it, in rising order of time; empty for one pattern
 * @param trial what it is for in a sweep; where it is only measured, nothing of it is cared for
 */
public record Vector(
    long number,
    int stepNumber,
    long index,
    Phase phase,
    PatternStep step,
    int row,
    Card card,
    long[] level,
    long[] enabled,
    long[] expect,
    long[] care,
    List<Moment> later,
    Optional<Trial> trial) {
  public Vector {
    later = List.copyOf(later);
  }

  /** Levels as it leaves them: those of the last moment of a sequence. */
  public long[] lastLevel() {
    return later.isEmpty() ? level : later.get(later.size() - 1).level();
  }

  /** What is driven as it leaves it. */
  public long[] lastEnabled() {
    return later.isEmpty() ? enabled : later.get(later.size() - 1).enabled();
  }

  /** Bits that must hold still, by bus index. */
  public long[] still() {
    return step.still();
  }

  public Timing timing() {
    return trial.isPresent() ? step.sweep().orElseThrow().timing() : step.timing();
  }

  /** {@code file:line#index}, and the calls it comes from, by which a user finds it again. */
  public String origin() {
    return step.at().fileAndLine() + "#" + (index + 1) + step.marks().calls();
  }

  /** What the user's own names stand at: {@code A=0x004 B=0x000 CI=0}. */
  public String describe() {
    List<String> parts = new ArrayList<>();
    for (int b = 0; b < card.buses().size(); b++) {
      Bus bus = card.buses().get(b);
      if (bus.role().driven() && (bus.role().watched() ? enabled[b] != 0 : true)) {
        parts.add(bus.name() + "=" + WordText.of(level[b], 0, bus.width()));
      }
    }
    String text = String.join(" ", parts) + sequence();
    return phase == Phase.PATTERN ? text : text + " (" + phase.words() + ")";
  }

  /** {@code ; 20 ms LD=1; 60 ms LD=0}, with what changes at each time. */
  private String sequence() {
    StringBuilder text = new StringBuilder();
    long[] was = level;
    long[] heldThen = enabled;
    for (Moment moment : later) {
      text.append("; ").append(moment.atUs() / 1000.0).append(" ms");
      for (int b = 0; b < was.length; b++) {
        Bus bus = card.buses().get(b);
        boolean let = heldThen[b] != 0 && moment.enabled()[b] == 0;
        if (let || was[b] != moment.level()[b] || heldThen[b] != moment.enabled()[b]) {
          String word = let ? "released" : WordText.of(moment.level()[b], 0, bus.width());
          text.append(' ').append(bus.name()).append('=').append(word);
        }
      }
      was = moment.level();
      heldThen = moment.enabled();
    }
    return text.toString().replace(".0 ms", " ms");
  }

  /** Whether it is of a sweep: a trial, or one that puts the other word in before it. */
  public boolean ofSweep() {
    return step.sweep().isPresent();
  }

  /** Whether it is a trial of a sweep that may as well not work. */
  public boolean measured() {
    return trial.isPresent() && !trial.get().mustWork();
  }

  /** Bits that are watched but have no expectation that could be judged; none in a trial. */
  public int notJudgedBits() {
    if (trial.isPresent()) {
      return 0;
    }
    int bits = 0;
    for (int b = 0; b < care.length; b++) {
      Bus bus = card.buses().get(b);
      if (bus.role().watched()) {
        bits += Long.bitCount(bus.mask() & ~care[b]);
      }
    }
    return bits;
  }
}
