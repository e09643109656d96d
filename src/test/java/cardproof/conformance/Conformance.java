package cardproof.conformance;

import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicContainer;
import org.junit.jupiter.api.DynamicTest;
import org.opentest4j.TestAbortedException;

/** All cases, each as a test of one peer. */
final class Conformance {
  private Conformance() {}

  static List<Case> cases() {
    return Stream.of(
            FrameCases.section(),
            HelloCases.section(),
            OpenCases.section(),
            StateCases.section(),
            SlotCases.section(),
            SetCases.section(),
            StepFieldCases.section(),
            StepRunCases.section(),
            GateCases.section(),
            DwellCases.section(),
            TripCases.section(),
            HoldCases.section(),
            SilenceCases.section(),
            SequenceCases.section(),
            CaptureCases.section(),
            SupplyCases.section())
        .flatMap(section -> section.cases().stream())
        .toList();
  }

  static Stream<DynamicContainer> on(PeerMaker maker) {
    Tally tally = new Tally(maker.name());
    return cases().stream()
        .map(Case::section)
        .distinct()
        .map(
            section ->
                DynamicContainer.dynamicContainer(
                    section,
                    cases().stream()
                        .filter(each -> each.section().equals(section))
                        .map(
                            each ->
                                DynamicTest.dynamicTest(
                                    each.name(), () -> run(each, maker, tally)))));
  }

  private static void run(Case each, PeerMaker maker, Tally tally) {
    String outcome = "failed";
    try (Peer peer = maker.start(each.card().of(maker.drives(), maker.watches()))) {
      each.body().run(new Bench(peer));
      outcome = "run";
    } catch (TestAbortedException skipped) {
      outcome = "left out: " + skipped.getMessage();
      throw skipped;
    } finally {
      tally.add(each, outcome);
    }
  }
}
