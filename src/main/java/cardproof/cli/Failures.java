package cardproof.cli;

import cardproof.link.LinkException;
import cardproof.log.LogException;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.PrintWriter;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;

/** Turns what went wrong into sentences and an exit code; never a stack trace on the console. */
final class Failures implements IExecutionExceptionHandler {
  private static final int MOST_SHOWN = 50;

  @Override
  public int handleExecutionException(Exception failure, CommandLine command, ParseResult parsed) {
    PrintWriter err = command.getErr();
    if (failure instanceof RefusedException refused) {
      print(err, refused);
      return ExitCode.USAGE;
    }
    if (failure instanceof LinkException link) {
      err.println(link.problem());
      return ExitCode.LINK;
    }
    if (failure instanceof LogException log) {
      err.println(log.problem());
      return ExitCode.USAGE;
    }
    return defect(err, failure);
  }

  static int defect(PrintWriter err, Throwable failure) {
    LoggerFactory.getLogger(Failures.class).error("defect", failure);
    err.println(
        "This is a defect of cardproof: "
            + failure
            + ". Its details are in "
            + DebugLog.file()
            + "; please report them.");
    return ExitCode.DEFECT;
  }

  private static void print(PrintWriter err, RefusedException refused) {
    int count = refused.problems().size();
    refused.problems().stream().limit(MOST_SHOWN).map(Problem::toString).forEach(err::println);
    if (count > MOST_SHOWN) {
      err.println("... and " + (count - MOST_SHOWN) + " more.");
    }
    if (count > 1) {
      err.println(count + " problems.");
    }
  }
}
