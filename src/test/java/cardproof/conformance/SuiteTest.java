package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

/** The suite itself: one name for each case, and enough of them. */
class SuiteTest {
  @Test
  void everyCaseHasANameOfItsOwn() {
    List<Case> cases = Conformance.cases();
    assertThat(cases).hasSizeGreaterThanOrEqualTo(100);
    assertThat(cases.stream().map(each -> each.section() + ": " + each.name()))
        .doesNotHaveDuplicates();
  }
}
