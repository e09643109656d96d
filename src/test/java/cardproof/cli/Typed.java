package cardproof.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.function.Supplier;
import picocli.CommandLine;

/** A command whose questions are answered from a list, as if typed line by line. */
final class Typed implements Answers {
  private final Deque<String> lines;
  private final List<String> prompts = new ArrayList<>();

  private Typed(String... lines) {
    this.lines = new ArrayDeque<>(List.of(lines));
  }

  @Override
  public Optional<String> ask(String prompt) {
    prompts.add(prompt);
    return Optional.ofNullable(lines.poll());
  }

  /**
   * @param prompts what was asked, in order
   * @param left answers that nobody asked for
   */
  record Session(Cli cli, List<String> prompts, int left) {}

  static Session run(
      Function<Supplier<Optional<Answers>>, Callable<Integer>> command,
      List<Object> options,
      String... lines) {
    Typed typed = new Typed(lines);
    StringWriter out = new StringWriter();
    StringWriter err = new StringWriter();
    CommandLine line =
        new CommandLine(command.apply(() -> Optional.of(typed)))
            .setExecutionExceptionHandler(new Failures())
            .setParameterExceptionHandler(new UsageFailures())
            .setOut(new PrintWriter(out, true))
            .setErr(new PrintWriter(err, true));
    int exitCode = line.execute(options.stream().map(Object::toString).toArray(String[]::new));
    return new Session(
        new Cli(exitCode, out.toString(), err.toString()), typed.prompts, typed.lines.size());
  }
}
