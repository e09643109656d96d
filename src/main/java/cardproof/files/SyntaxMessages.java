package cardproof.files;

import cardproof.text.Position;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;

/**
 * Says in plain words why a text is no YAML. SnakeYAML's own text goes by the state of its parser;
 * a user thinks in lines, quotes and indentation.
 */
final class SyntaxMessages {
  private static final Pattern CANNOT_START = Pattern.compile("found character '(.).*");
  private static final Pattern GOT =
      Pattern.compile(".*(?:but found|but got) '?(.*?)'?", Pattern.DOTALL);

  private final SourceText source;
  private final Problems problems;

  SyntaxMessages(SourceText source, Problems problems) {
    this.source = source;
    this.problems = problems;
  }

  void report(MarkedYAMLException unreadable) {
    Mark mark = unreadable.getProblemMark();
    Mark start = unreadable.getContextMark() == null ? mark : unreadable.getContextMark();
    String context = unreadable.getContext() == null ? "" : unreadable.getContext();
    String problem = unreadable.getProblem() == null ? "" : unreadable.getProblem();
    if (!directive(context, problem)
        && !characters(context, problem, mark, start)
        && !quotes(context, problem, mark, start)
        && !flow(context, problem, mark, start)
        && !block(context, problem, mark, start)) {
      say(
          mark,
          "YAML cannot read this line (" + problem.replaceAll("\\s+", " ") + ")",
          "",
          hint(mark));
    }
  }

  /** Lines that begin with % speak to the YAML reader; whatever they upset, they are the cause. */
  private boolean directive(String context, String problem) {
    boolean likely =
        context.contains("directive")
            || problem.contains("directive")
            || problem.contains("tag handle")
            || problem.contains("<document start>");
    for (int i = 0; likely && i < source.lines().size(); i++) {
      if (source.lines().get(i).startsWith("%")) {
        problems.error(
            new Position(source.name(), i + 1, 1),
            "a line that begins with '%' speaks to the YAML reader, and these files use none",
            "a key, a colon, a blank and a value",
            "Delete the line");
        return true;
      }
    }
    return false;
  }

  private boolean characters(String context, String problem, Mark mark, Mark start) {
    Matcher cannotStart = CANNOT_START.matcher(problem);
    if (problem.contains("(TAB)")) {
      return say(
          mark,
          "a tab stands here",
          "blanks",
          "Indent with blanks, two for each level; never tabs");
    }
    if (cannotStart.matches()) {
      return say(mark, "no value can begin with " + cannotStart.group(1), "", hint(mark));
    }
    if (context.contains("anchor") || context.contains("alias")) {
      String sign = source.between(start, mark).startsWith("*") ? "*" : "&";
      return say(start, "'" + sign + "' has a meaning of its own in YAML", "a value", hint(start));
    }
    if (problem.contains("undefined alias")) {
      return say(
          mark, "'*' begins an alias here, and no anchor has that name", "a value", hint(mark));
    }
    if (context.contains("scanning a tag") || problem.contains("tag handle")) {
      return say(
          start,
          "'!' begins a YAML tag here, and these files use none",
          "a plain value",
          hint(start));
    }
    if (context.contains("block scalar")) {
      return say(
          start, "'|' and '>' begin a text of several lines in YAML", "a value", hint(start));
    }
    return false;
  }

  private boolean quotes(String context, String problem, Mark mark, Mark start) {
    if (context.contains("double-quoted scalar")) {
      return say(
          mark,
          "a backslash in double quotes begins an escape, and this one is not known",
          "\\\\ for a backslash, \\\" for a quote",
          "Or use single quotes, in which a backslash is a backslash");
    }
    if (context.contains("quoted scalar")) {
      return say(start, "this quote is never closed", "the same quote at the end", "");
    }
    return false;
  }

  private boolean flow(String context, String problem, Mark mark, Mark start) {
    if (!problem.startsWith("expected ','")) {
      return false;
    }
    boolean list = context.contains("sequence");
    String opening = list ? "[" : "{";
    String closing = list ? "]" : "}";
    String got = got(problem);
    if (mark.getLine() == start.getLine()
        && (got.equals("[") || got.equals("{") || got.equals("?"))) {
      return say(
          mark,
          "'" + got + "' cannot stand here inside " + opening + " " + closing,
          "',' or '" + closing + "'",
          QuoteHint.inside(source.line(mark), mark.getColumn()));
    }
    if (mark.getLine() == start.getLine()
        && !got.startsWith("<stream")
        && !got.startsWith("<block")) {
      return say(
          mark,
          "the " + opening + " in column " + (start.getColumn() + 1) + " is not closed before this",
          "',' or '" + closing + "'",
          "");
    }
    return say(
        start,
        "this " + opening + " is never closed",
        "a " + closing,
        "YAML lost its way in line " + (mark.getLine() + 1));
  }

  private boolean block(String context, String problem, Mark mark, Mark start) {
    if (problem.startsWith("mapping values")) {
      return colon(mark);
    }
    if (problem.startsWith("sequence entries")) {
      return say(
          mark,
          "a list item '- ' cannot stand behind a key",
          "each item on a line of its own below the key",
          "");
    }
    if (problem.startsWith("mapping keys")) {
      return say(mark, "'? ' begins a key in YAML", "a value", hint(mark));
    }
    if (problem.startsWith("could not find expected ':'")) {
      return say(
          start,
          "this line has no ': '",
          "a key, a colon, a blank and a value",
          "A long value goes on in lines that are indented further than its key");
    }
    if (problem.startsWith("expected the node content")) {
      return say(mark, missing(got(problem)), "a value", hint(mark));
    }
    if (problem.startsWith("expected <block end>")) {
      return blockEnd(problem, mark, start);
    }
    if (problem.contains("<document start>")) {
      return say(
          mark,
          "this stands behind the end of the document",
          "nothing more",
          "Everything belongs below the keys of the first column");
    }
    return false;
  }

  private static String missing(String got) {
    return got.startsWith("<")
        ? "a value is missing here"
        : "a value cannot begin with '" + got + "'";
  }

  /** A ': ' too many: in the value, or because the line is indented into the value above it. */
  private boolean colon(Mark mark) {
    String line = source.line(mark);
    String before = line.substring(0, Math.min(mark.getColumn(), line.length()));
    if (!before.contains(": ")) {
      return say(
          mark,
          "YAML takes this line for part of the value that began above it",
          "keys of one map in one column, each with ': ' behind it",
          "Look at the indentation, and for a missing blank behind the colon above");
    }
    String key = before.substring(0, before.indexOf(": ")).strip();
    String rest = before.substring(before.indexOf(": ") + 2).strip();
    if (QuoteHint.forLine(line).contains("write")) {
      return say(mark, "a second ': ' stands in this line", "one key and one value", hint(mark));
    }
    return say(
        mark,
        "two keys stand in one line",
        "one key and one value",
        "Put '" + rest + ":' on the next line, indented under '" + key + ":'");
  }

  private boolean blockEnd(String problem, Mark mark, Mark start) {
    String got = got(problem);
    boolean lineStart =
        source
            .line(mark)
            .substring(0, Math.min(mark.getColumn(), source.line(mark).length()))
            .isBlank();
    if (lineStart) {
      return say(
          mark,
          "this line is in column " + (mark.getColumn() + 1) + ", which fits nothing above it",
          "the column of the block it belongs to; the last one begins in line "
              + (start.getLine() + 1)
              + ", column "
              + (start.getColumn() + 1),
          "Indent all entries of one list or map alike");
    }
    if (got.equals("]") || got.equals("}")) {
      return say(mark, "this '" + got + "' closes nothing", "", "Take it out, or open it before");
    }
    return say(mark, "text follows the end of the value", "the end of the line", hint(mark));
  }

  private static String got(String problem) {
    Matcher got = GOT.matcher(problem);
    return got.matches() ? got.group(1) : "";
  }

  private String hint(Mark mark) {
    return QuoteHint.forLine(source.line(mark));
  }

  private boolean say(Mark mark, String found, String wanted, String next) {
    problems.error(source.at(mark), found, wanted, next);
    return true;
  }
}
