package cardproof.run;

import cardproof.fixture.Pattern;
import cardproof.plan.Audits;
import cardproof.plan.Trial;
import cardproof.plan.Vector;

/** Makes of a vector what the fixture is told; asked for each vector once, in order. */
final class Patterns {
  private final RunOptions options;
  private final Audits audits = new Audits();

  Patterns(RunOptions options) {
    this.options = options;
  }

  Pattern of(Vector vector) {
    return new Pattern(
        vector.level(),
        vector.enabled(),
        vector.expect(),
        vector.trial().map(Trial::lines).orElseGet(vector::care),
        vector.still(),
        vector.timing().longestLimitUs(),
        vector.timing().watchUs(),
        vector.timing().quietUs(),
        audits.includes(vector),
        options.stopOnFail() && !vector.measured(),
        vector.step().dwellUs(),
        options.capture(),
        vector.later().stream()
            .map(moment -> new Pattern.Later(moment.atUs(), moment.level(), moment.enabled()))
            .toList());
  }
}
