package cardproof.plan;

import cardproof.bits.Expression;
import cardproof.card.Card;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;

/**
 * Plans put together in code, for tests that are not about files. Each step stands on a line of its
 * own, counted from 1.
 */
public final class PlanSketch {
  private final Card card;
  private final int[] line;
  private final List<Step> steps = new ArrayList<>();

  private PlanSketch(Card card, int[] line) {
    this.card = card;
    this.line = line;
  }

  public static PlanSketch of(Card card) {
    return new PlanSketch(card, new int[1]);
  }

  public PlanSketch step(UnaryOperator<StepSketch> filled) {
    steps.add(filled.apply(new StepSketch(card, here())).step());
    return this;
  }

  public PlanSketch repeat(long times, String title, UnaryOperator<PlanSketch> filled) {
    Position at = here();
    List<Step> inside = filled.apply(new PlanSketch(card, line)).steps;
    steps.add(new RepeatStep(at, title, times, inside));
    return this;
  }

  public Plan plan() {
    return new Plan("a plan", card, steps, new Position("plan.yaml", 1, 1));
  }

  private Position here() {
    line[0]++;
    return new Position("plan.yaml", line[0], 5);
  }

  /** The card's own times. */
  static Timing timing(Card card) {
    return new Timing(
        card.limits().settleUs(),
        new long[card.buses().size()],
        card.limits().quietUs(),
        card.limits().watchUs());
  }

  /** One step being written. */
  public static final class StepSketch {
    private final Card card;
    private final Position at;
    private final List<Setting> drive = new ArrayList<>();
    private final List<Axis> each = new ArrayList<>();
    private final List<Row> rows = new ArrayList<>();
    private final List<Setting> pulse = new ArrayList<>();
    private final List<Expected> expected = new ArrayList<>();
    private final long[] still;
    private String title = "a step";
    private Timing timing;

    private StepSketch(Card card, Position at) {
      this.card = card;
      this.at = at;
      this.still = new long[card.buses().size()];
      this.timing = PlanSketch.timing(card);
    }

    public StepSketch title(String words) {
      title = words;
      return this;
    }

    public StepSketch drive(String bus, long word) {
      drive.add(Setting.to(bus(bus), word));
      return this;
    }

    public StepSketch release(String bus) {
      drive.add(Setting.release(bus(bus)));
      return this;
    }

    /** Names of buses with a space between are joined, the first most significant. */
    public StepSketch each(String buses, Generator words) {
      each.add(new Axis(Arrays.stream(buses.split(" ")).map(this::bus).toList(), words));
      return this;
    }

    public StepSketch row(Map<String, Long> set, Map<String, String> wanted) {
      rows.add(
          new Row(
              set.entrySet().stream()
                  .map(entry -> Setting.to(bus(entry.getKey()), entry.getValue()))
                  .toList(),
              wanted.entrySet().stream()
                  .map(entry -> expected(entry.getKey(), entry.getValue()))
                  .toList()));
      return this;
    }

    public StepSketch pulse(String bus, long word) {
      pulse.add(Setting.to(bus(bus), word));
      return this;
    }

    public StepSketch expect(String bus, String expression) {
      expected.add(expected(bus, expression));
      return this;
    }

    public StepSketch still(String bus) {
      still[bus(bus)] = card.buses().get(bus(bus)).mask();
      return this;
    }

    public StepSketch timing(long settleUs, long quietUs, long watchUs) {
      timing = new Timing(settleUs, timing.busSettleUs(), quietUs, watchUs);
      return this;
    }

    public StepSketch busSettleUs(String bus, long limitUs) {
      long[] limits = timing.busSettleUs().clone();
      limits[bus(bus)] = limitUs;
      timing = new Timing(timing.settleUs(), limits, timing.quietUs(), timing.watchUs());
      return this;
    }

    PatternStep step() {
      return new PatternStep(at, title, drive, each, rows, pulse, expected, still, timing);
    }

    private Expected expected(String bus, String expression) {
      return new Expected(bus(bus), Expression.compile(expression, card.scope()));
    }

    private int bus(String name) {
      int index = card.busIndex(name);
      if (index < 0) {
        throw new IllegalArgumentException("no bus " + name);
      }
      return index;
    }
  }
}
