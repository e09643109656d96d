package cardproof.files;

import cardproof.plan.Setting;
import cardproof.plan.Sweep;
import cardproof.plan.SweepKind;
import cardproof.plan.SweepRange;
import cardproof.plan.Target;
import cardproof.plan.Timing;
import cardproof.text.Position;
import java.util.Optional;
import java.util.OptionalLong;

/** Which times a sweep tries, and how long its trials last. */
final class SweepTimes {
  static final int MOST_POINTS = 10_000;

  private static final long LONGEST_US = 10_000_000;
  private static final long USUAL_RESOLUTION_US = 1_000;
  private static final int MOST_TIMES = 100_000;

  private final PlanNames names;
  private final Problems problems;

  SweepTimes(PlanNames names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  /** As written; else as far as the card may take to settle, and back. */
  Optional<SweepRange> range(Fields fields, SweepKind kind, Timing timing) {
    boolean pulse = kind == SweepKind.PULSE;
    OptionalLong resolution = time(fields, "resolution", 1, LONGEST_US);
    OptionalLong from = time(fields, "from", pulse ? 1 : -LONGEST_US, LONGEST_US);
    OptionalLong to = time(fields, "to", pulse ? 1 : -LONGEST_US, LONGEST_US);
    boolean good =
        agree(fields, "resolution", resolution)
            && agree(fields, "from", from)
            && agree(fields, "to", to);
    if (!good || names.card().isEmpty()) {
      return Optional.empty();
    }
    long usualUs = timing.longestLimitUs();
    long stepUs = resolution.orElse(USUAL_RESOLUTION_US);
    long fromUs = from.orElse(pulse ? stepUs : Math.min(-usualUs, to.orElse(0) - stepUs));
    long toUs = to.orElse(Math.max(usualUs, fromUs + stepUs));
    if (fromUs >= toUs) {
      problems.error(
          at(fields, "to", "from"),
          "the sweep goes from " + Quantity.TIME.text(fromUs) + " to " + Quantity.TIME.text(toUs),
          "a 'to' that is longer than 'from'",
          "");
      return Optional.empty();
    }
    if (stepUs > toUs - fromUs || (toUs - fromUs) / stepUs >= MOST_TIMES) {
      problems.error(
          at(fields, "resolution", "to"),
          "a resolution of "
              + Quantity.TIME.text(stepUs)
              + " from "
              + Quantity.TIME.text(fromUs)
              + " to "
              + Quantity.TIME.text(toUs),
          "at least 1 and less than " + MOST_TIMES + " such steps in between",
          "");
      return Optional.empty();
    }
    return Optional.of(new SweepRange(fromUs, toUs, stepUs));
  }

  OptionalLong atMostUs(Fields fields, SweepRange range) {
    OptionalLong atMost = time(fields, "at-most", -LONGEST_US, LONGEST_US);
    boolean outside =
        atMost.isPresent()
            && (atMost.getAsLong() <= range.fromUs() || atMost.getAsLong() > range.toUs());
    if (outside) {
      problems.error(
          fields.get("at-most").orElseThrow().at(),
          "'at-most' is "
              + Quantity.TIME.text(atMost.getAsLong())
              + ", and the sweep goes from "
              + Quantity.TIME.text(range.fromUs())
              + " to "
              + Quantity.TIME.text(range.toUs()),
          "a limit within the sweep",
          "Write a 'from' or 'to' that reaches beyond it");
      return OptionalLong.empty();
    }
    return atMost;
  }

  /** Empty, with a problem said, where a trial would hold a pattern longer than the card may. */
  Optional<Sweep> sweep(
      Fields fields,
      SweepKind kind,
      Target data,
      Optional<Target> out,
      Setting edge,
      SweepRange range,
      OptionalLong atMostUs,
      int points,
      Timing timing) {
    long settleUs = timing.longestLimitUs();
    long leadUs =
        switch (kind) {
          case SET_UP -> Math.max(0, range.toUs()) + settleUs;
          case HOLD -> Math.max(0, -range.fromUs()) + settleUs;
          case PULSE -> settleUs;
        };
    long lastUs =
        switch (kind) {
          case SET_UP -> leadUs + Math.max(0, -range.fromUs());
          case HOLD, PULSE -> leadUs + Math.max(0, range.toUs());
        };
    long limitUs = lastUs + settleUs;
    long watchUs = limitUs + Math.max(timing.quietUs(), timing.watchUs() - settleUs);
    long holdUs = names.card().orElseThrow().limits().holdMs() * 1000;
    if (watchUs > holdUs) {
      problems.error(
          fields.at(),
          "a trial would be watched for up to "
              + Quantity.TIME.text(watchUs)
              + ", and the card's patterns may be held for "
              + Quantity.TIME.text(holdUs),
          "a sweep over less, or a shorter 'settle'",
          "");
      return Optional.empty();
    }
    return Optional.of(
        new Sweep(
            kind,
            data,
            out,
            SweepReader.control(edge, names),
            (edge.level() & edge.mask()) != 0,
            range,
            atMostUs,
            points,
            leadUs,
            new Timing(limitUs, new long[timing.busSettleUs().length], timing.quietUs(), watchUs)));
  }

  private OptionalLong time(Fields fields, String key, long least, long most) {
    return fields
        .get(key)
        .map(node -> Quantity.TIME.read(node, key, least, most, problems))
        .orElse(OptionalLong.empty());
  }

  /** Whether what is written could be read. */
  private static boolean agree(Fields fields, String key, OptionalLong read) {
    return !fields.has(key) || read.isPresent();
  }

  private static Position at(Fields fields, String first, String other) {
    return fields.get(first).or(() -> fields.get(other)).map(Node::at).orElse(fields.at());
  }
}
