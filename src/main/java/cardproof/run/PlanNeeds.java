package cardproof.run;

import cardproof.link.HelloReply;
import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.Optional;

/** What a plan asks for that not every bench has; said before anything is driven. */
final class PlanNeeds {
  private PlanNeeds() {}

  /**
   * Looks at the plan beside the board and who is there.
   *
   * @param switched whether somebody can switch the card's supply
   * @throws RefusedException naming the first step that cannot be run
   */
  static void check(Plan plan, HelloReply hello, boolean switched) {
    checkSequences(plan, hello);
    checkPower(plan, switched);
  }

  private static void checkSequences(Plan plan, HelloReply hello) {
    int most = hello.mostEntriesOfSequence();
    plan.longestSequence()
        .filter(step -> step.switches() > most)
        .ifPresent(
            step -> {
              throw new RefusedException(
                  Problem.at(
                      step.at(),
                      "this step has "
                          + (step.sweep().isPresent() ? "a sweep, with " : "a sequence of ")
                          + step.switches()
                          + " later settings, and the board '"
                          + hello.board()
                          + "' "
                          + (most == 0 ? "runs no timed sequences" : "runs " + most + " at most"),
                      "a fixture that switches so often within one vector, on its own clock",
                      "Load firmware with timed sequences onto it, leave the step out by its tags, or"
                          + " run the plan on the simulated bench"));
            });
  }

  private static void checkPower(Plan plan, boolean switched) {
    Optional<PatternStep> step = plan.firstPower();
    if (step.isPresent() && !switched) {
      throw new RefusedException(
          Problem.at(
              step.get().at(),
              "this step switches the card's supply, and nobody is there to do it",
              "a fixture with a supply switch, or a terminal to ask at",
              "Name the profile of such a fixture with --fixture, or leave the step out with"
                  + " --skip"));
    }
  }
}
