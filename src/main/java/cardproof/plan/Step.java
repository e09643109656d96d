package cardproof.plan;

import cardproof.text.Position;

/** One entry of a plan. */
public sealed interface Step permits PatternStep, RepeatStep {
  Position at();

  String title();

  /** How many vectors it stands for; {@link Long#MAX_VALUE} when more than that. */
  long vectorCount();
}
