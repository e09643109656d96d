package cardproof.log;

import java.util.List;

/**
 * A run without its vectors.
 *
 * @param summary how it went
 * @param start what it was begun with
 * @param steps those begun so far, in the plan's order
 */
public record RunDetail(RunSummary summary, RunStart start, List<StepTitle> steps) {}
