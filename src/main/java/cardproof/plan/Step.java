package cardproof.plan;

import cardproof.text.Position;
import java.util.Set;

/** One entry of a plan. */
public sealed interface Step permits PatternStep, RepeatStep {
  Position at();

  String title();

  /** Words by which it may be chosen. */
  Set<String> tags();

  /** How many vectors it stands for; {@link Long#MAX_VALUE} when more than that. */
  long vectorCount();
}
