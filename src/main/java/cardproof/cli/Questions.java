package cardproof.cli;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.PrintWriter;
import java.util.function.Function;

/** Asks until an answer will do; what is wrong with one is said at once. */
final class Questions {
  private final Answers answers;
  private final PrintWriter talk;

  Questions(Answers answers, PrintWriter talk) {
    this.answers = answers;
    this.talk = talk;
  }

  /**
   * @param standard what an empty answer stands for; it is shown
   * @param taken takes the answer, or refuses it with {@link RefusedException}
   * @return what {@code taken} made of it
   */
  <T> T ask(String question, String standard, Function<String, T> taken) {
    String prompt = question + (standard.isEmpty() ? "" : " [" + standard + "]") + ": ";
    while (true) {
      talk.flush();
      String answer = answers.ask(prompt).orElseThrow(Questions::ended).strip();
      try {
        return taken.apply(answer.isEmpty() ? standard : answer);
      } catch (RefusedException refused) {
        refused.problems().forEach(problem -> talk.println("  " + problem));
      }
    }
  }

  void say(String line) {
    talk.println(line);
  }

  private static RefusedException ended() {
    return new RefusedException(
        new Problem("new", "the answers ended too early", "", "Nothing was written"));
  }
}
