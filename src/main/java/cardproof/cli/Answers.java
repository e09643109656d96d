package cardproof.cli;

import java.io.Console;
import java.util.Optional;

/** Somebody who is asked at a terminal. */
interface Answers {
  /** A line as typed; empty where no more will come. */
  Optional<String> ask(String prompt);

  /** The one at the terminal, if there is one. */
  static Optional<Answers> atTerminal() {
    Console console = System.console();
    return Optional.ofNullable(console)
        .map(c -> prompt -> Optional.ofNullable(c.readLine("%s", prompt)));
  }
}
