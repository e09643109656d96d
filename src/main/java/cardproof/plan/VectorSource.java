package cardproof.plan;

import cardproof.bits.WordText;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.NeverRestsException;
import cardproof.card.Role;
import cardproof.card.Sharing;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Iterator;
import java.util.List;
import java.util.NoSuchElementException;
import java.util.Optional;

/**
 * Goes through a plan and makes its vectors, one at a time. Drives stay as they are until a step
 * changes them, like switches. Not thread safe.
 */
public final class VectorSource implements Iterator<Vector> {
  private final Card card;
  private final StepWalk walk;
  private final Prediction prediction;
  private final long[] level;
  private final long[] enabled;
  private final long[] savedLevel;
  private final long[] savedEnabled;
  private final List<Moment> moments = new ArrayList<>();
  private long[] startLevel;
  private long[] startEnabled;
  private final SweepTargets targets;
  private SweepCourse sweep;
  private Optional<Trial> trial = Optional.empty();
  private Phase phase;
  private int row;
  private long number;

  VectorSource(Plan plan) {
    this.card = plan.card();
    this.walk = new StepWalk(plan.steps());
    this.prediction = new Prediction(card);
    this.targets = new SweepTargets(card);
    int buses = card.buses().size();
    this.level = new long[buses];
    this.enabled = new long[buses];
    this.savedLevel = new long[buses];
    this.savedEnabled = new long[buses];
  }

  @Override
  public boolean hasNext() {
    return walk.hasNext();
  }

  /**
   * @throws RefusedException when the card's behaviour never rests with this vector, or card and
   *     fixture would drive an exclusive bus together
   */
  @Override
  public Vector next() {
    if (!hasNext()) {
      throw new NoSuchElementException();
    }
    StepWalk.Place place = walk.next();
    if (isFirstTrial(place.step(), place.indexInPass())) {
      sweep = new SweepCourse(place.step(), card);
    }
    drive(place.step(), place.indexInPass());
    Vector vector = vector(place, place.step(), phase, row);
    checkExclusive(vector);
    number++;
    return vector;
  }

  /**
   * Goes past vectors that need not be made again; drives and expectations are those of the whole
   * plan.
   */
  public void skip(long vectors) {
    for (long i = 0; i < vectors; i++) {
      next();
    }
  }

  /**
   * Whether the next vector is a trial of a sweep: what came of all vectors before it must be known
   * and learnt before it is made.
   */
  public boolean trialIsNext() {
    return walk.peek()
        .filter(place -> place.step().sweep().isPresent())
        .filter(place -> place.indexInPass() % Sweep.VECTORS == Sweep.VECTORS - 1)
        .isPresent();
  }

  /** The sweep of the trial made last. */
  public Optional<SweepCourse> sweep() {
    return Optional.ofNullable(sweep);
  }

  /** Bits of a bus that the card itself drives to 1 with the vector made last. */
  long cardDrives(int busIndex) {
    return prediction.cardDrives(busIndex);
  }

  /** Bits of a bus or state that cannot be known with the vector made last; by slot. */
  long unknown(int slot) {
    return prediction.unknown(slot);
  }

  /** What a step itself expects of one of its vectors. */
  static List<Expected> expected(PatternStep step, Phase phase, int row) {
    if (phase == Phase.PULSE_ON && row >= 0) {
      return step.rows().get(row).whilePulsed();
    }
    boolean last = !step.pulsed() || phase == Phase.PULSE_OFF;
    if (!last) {
      return List.of();
    }
    return row < 0 ? step.expected() : step.rows().get(row).expected();
  }

  /**
   * Drives what one vector of a step drives, without making the vector. Vectors may be left out, if
   * only whole patterns are.
   *
   * @return levels by bus index, not to be written to
   */
  long[] drive(PatternStep step, long indexInPass) {
    trial = Optional.empty();
    if (step.sweep().isPresent()) {
      driveSweep(step, step.sweep().get(), indexInPass);
      return level;
    }
    int perPattern = step.vectorsPerPattern();
    long pattern = indexInPass / perPattern;
    phase = phase(step, (int) (indexInPass % perPattern));
    row = step.rows().isEmpty() ? -1 : (int) (pattern % step.rows().size());
    drive(step, pattern, row, phase);
    return level;
  }

  private static Phase phase(PatternStep step, int index) {
    if (!step.pulsed()) {
      return Phase.PATTERN;
    }
    return Phase.values()[step.pulseAlone() ? index + 1 : index];
  }

  private void drive(PatternStep step, long pattern, int row, Phase phase) {
    switch (phase) {
      case PATTERN -> {
        if (step.power().isPresent()) {
          Arrays.fill(level, 0);
          Arrays.fill(enabled, 0);
        }
        step.drive().forEach(this::set);
        driveAxes(step, row < 0 ? pattern : pattern / step.rows().size());
        if (row >= 0) {
          step.rows().get(row).settings().forEach(this::set);
        }
        startSequence(step.sequence());
      }
      case PULSE_ON -> {
        moments.clear();
        System.arraycopy(level, 0, savedLevel, 0, level.length);
        System.arraycopy(enabled, 0, savedEnabled, 0, enabled.length);
        step.pulse().forEach(this::set);
        if (row >= 0) {
          step.rows().get(row).pulse().forEach(this::set);
        }
      }
      case PULSE_OFF -> {
        System.arraycopy(savedLevel, 0, level, 0, level.length);
        System.arraycopy(savedEnabled, 0, enabled, 0, enabled.length);
      }
      default -> throw new IllegalStateException(phase.name());
    }
  }

  private static boolean isFirstTrial(PatternStep step, long indexInPass) {
    return step.sweep().isPresent() && indexInPass == Sweep.VECTORS - 1;
  }

  /** The other word goes in, with the control line there and back; then comes the trial itself. */
  private void driveSweep(PatternStep step, Sweep what, long indexInPass) {
    int part = (int) (indexInPass % Sweep.VECTORS);
    boolean complement = (indexInPass / Sweep.VECTORS & 1) != 0;
    row = -1;
    moments.clear();
    if (part < Sweep.VECTORS - 1) {
      phase = Phase.PREPARE;
      step.drive().forEach(this::set);
      set(what.data(card, !complement));
      set(what.control(part == 1));
      return;
    }
    phase = Phase.TRIAL;
    if (!targets.work(what, complement, level)) {
      throw refused(
          step,
          "nothing that is watched tells by the card's behaviour whether "
              + what.data().name(card)
              + " was taken",
          "a control line and an edge at which the card takes its data, and lines that show it",
          "Check 'data' and 'edge', and what the step drives beside them");
    }
    if (sweep != null && sweep.step() == step && !complement) {
      sweep.pick();
    }
    boolean going = sweep != null && sweep.step() == step;
    int point = going ? sweep.point() : what.range().count() - 1;
    long timeUs = what.range().atUs(point);
    trial =
        Optional.of(
            new Trial(
                timeUs, point, targets.target(), targets.lines(), timeUs >= what.mustWorkUs()));
    what.atStart(card, complement).forEach(this::set);
    startSequence(what.course(card, complement, timeUs));
  }

  private void startSequence(List<Later> sequence) {
    moments.clear();
    if (sequence.isEmpty()) {
      return;
    }
    startLevel = level.clone();
    startEnabled = enabled.clone();
    for (Later later : sequence) {
      later.settings().forEach(this::set);
      moments.add(new Moment(later.atUs(), level.clone(), enabled.clone()));
    }
  }

  private void driveAxes(PatternStep step, long pattern) {
    long rest = pattern;
    for (int a = step.each().size() - 1; a >= 0; a--) {
      Axis axis = step.each().get(a);
      long word = axis.generator().at(rest % axis.generator().count());
      rest /= axis.generator().count();
      Axis.split(card, axis.targets(), word, this::set);
    }
  }

  private void set(Setting setting) {
    int b = setting.busIndex();
    long mask = setting.mask() & card.buses().get(b).mask();
    set(b, mask, setting.level(), setting.released());
  }

  private void set(int b, long mask, long word, boolean released) {
    level[b] = level[b] & ~mask | word & mask;
    enabled[b] = released ? enabled[b] & ~mask : enabled[b] | mask;
  }

  private Vector vector(StepWalk.Place place, PatternStep step, Phase phase, int row) {
    boolean plain = moments.isEmpty();
    long[] startedWith = plain ? level.clone() : startLevel;
    List<Moment> later = plain ? List.of() : List.copyOf(moments);
    step.power().ifPresent(power -> prediction.power(power.on()));
    try {
      prediction.apply(startedWith, later, step.timing().quietUs(), expected(step, phase, row));
    } catch (NeverRestsException loop) {
      throw refused(
          step,
          "with " + driven() + " the card's behaviour never comes to rest",
          "a pattern at which every state holds",
          "The loop is " + String.join(" -> ", loop.loop()));
    }
    if (trial.isPresent()) {
      prediction.forget(); // whether it took the data is what is to be found out
    }
    return new Vector(
        number,
        place.stepNumber(),
        place.index(),
        phase,
        step,
        row,
        card,
        startedWith,
        plain ? enabled.clone() : startEnabled,
        trial.map(Trial::target).orElseGet(prediction::expect),
        trial.map(this::judged).orElseGet(prediction::care),
        later,
        trial);
  }

  private long[] judged(Trial one) {
    return one.mustWork() ? one.lines() : new long[level.length];
  }

  private void checkExclusive(Vector vector) {
    for (int b = 0; b < level.length; b++) {
      Bus bus = card.buses().get(b);
      if (bus.role() == Role.SHARED
          && bus.sharing() == Sharing.EXCLUSIVE
          && enabled[b] != 0
          && prediction.cardMayDrive(b) != 0) {
        long drives = prediction.cardDrives(b);
        throw refused(
            vector.step(),
            "card and fixture would drive the exclusive bus "
                + bus.name()
                + " at once, the card to "
                + WordText.of(drives, prediction.cardMayDrive(b) & ~drives, bus.width()),
            "one driver at a time",
            "Release " + bus.name() + " before the card drives it");
      }
    }
  }

  private String driven() {
    StringBuilder text = new StringBuilder();
    for (int b = 0; b < level.length; b++) {
      Bus bus = card.buses().get(b);
      if (bus.role().driven()) {
        text.append(text.isEmpty() ? "" : " ").append(bus.name()).append('=');
        text.append(WordText.of(level[b], 0, bus.width()));
      }
    }
    return text.toString();
  }

  private static RefusedException refused(
      PatternStep step, String found, String wanted, String next) {
    return new RefusedException(Problem.at(step.at(), found + step.marks().calls(), wanted, next));
  }
}
