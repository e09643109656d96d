package cardproof.files;

import cardproof.text.Position;
import java.util.Optional;
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

  private static final Pattern NO_BLANK =
      Pattern.compile("\\s*(?:- +)*([A-Za-z_][A-Za-z0-9_-]*):((?!.*: )\\S.*?)(?:\\s+#.*)?\\s*");
  private static final Pattern GOT =
      Pattern.compile(".*(?:but found|but got) '?(.*?)'?", Pattern.DOTALL);

  /** A longer line is no slip that could be shown whole. */
  private static final int LONGEST = 300;

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
    if (!openQuote(mark.getLine() + 1)
        && !directive(context, problem)
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

  /** A quote that is not closed on its line is the cause of whatever it upsets further down. */
  boolean openQuote(int upToLine) {
    Optional<Position> opened = OpenQuote.in(source).filter(at -> at.line() <= upToLine);
    opened.ifPresent(
        at -> {
          String line = source.lines().get(at.line() - 1);
          problems.error(
              at,
              "the quote that opens here is not closed on its line",
              "the same quote at the end of the value",
              QuoteHint.closed(line));
        });
    return opened.isPresent();
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
      return say(start, "'" + sign + "' has a meaning of its own in YAML", "", hint(start));
    }
    if (problem.contains("undefined alias")) {
      return say(mark, "'*' begins an alias here, and no anchor has that name", "", hint(mark));
    }
    if (context.contains("scanning a tag") || problem.contains("tag handle")) {
      return say(start, "'!' begins a YAML tag here, and these files use none", "", hint(start));
    }
    if (context.contains("block scalar")) {
      return say(start, "'|' and '>' begin a text of several lines in YAML", "", hint(start));
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
          QuoteHint.bracket(source.line(mark), mark.getColumn()));
    }
    if (mark.getLine() == start.getLine() && !list && got.equals(":")) {
      Optional<String> meant =
          SecondColon.meantInBraces(QuoteHint.item(source.line(mark), mark.getColumn()));
      if (meant.isPresent()) {
        return say(
            mark,
            "a second ': ' stands here before a ',' or '}'",
            "one key and one value between commas",
            meant.get());
      }
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
      return say(mark, "'? ' begins a key in YAML", "", hint(mark));
    }
    if (problem.startsWith("could not find expected ':'")) {
      return blankMissing(start.getLine())
          || say(
              start,
              "this line has no ': '",
              "a key, a colon, a blank and a value",
              "A long value goes on in lines that are indented further than its key");
    }
    if (problem.startsWith("expected the node content")) {
      return say(mark, missing(got(problem)), "", hint(mark));
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
      return blankMissingAbove(mark.getLine())
          || say(
              mark,
              "YAML takes this line for part of the value that began above it",
              "keys of one map in one column, each with ': ' behind it",
              "Look at the indentation, and for a missing blank behind the colon above");
    }
    Optional<String> meant = SecondColon.meant(line);
    if (meant.isPresent()) {
      return say(mark, "a second ': ' stands in this line", "one key and one value", meant.get());
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

  /** Whether the line above is one like {@code card:sum}, which is then the one complained of. */
  private boolean blankMissingAbove(int line) {
    int above = line - 1;
    while (above >= 0 && source.lines().get(above).strip().matches("(#.*)?")) {
      above--;
    }
    return above >= 0 && blankMissing(above);
  }

  private boolean blankMissing(int line) {
    Matcher joined = NO_BLANK.matcher(source.lines().get(line));
    if (source.lines().get(line).length() > LONGEST || !joined.matches()) {
      return false;
    }
    problems.error(
        new Position(source.name(), line + 1, joined.start(2) + 1),
        "a blank is missing after ':'",
        "a key, a colon, a blank and a value",
        "Write " + joined.group(1) + ": " + joined.group(2));
    return true;
  }

  private boolean blockEnd(String problem, Mark mark, Mark start) {
    String got = got(problem);
    boolean lineStart =
        source
            .line(mark)
            .substring(0, Math.min(mark.getColumn(), source.line(mark).length()))
            .isBlank();
    if (lineStart && got.equals("-") && mark.getColumn() == start.getColumn()) {
      return say(
          mark, "a list item '- ' stands among keys", "a key, a colon, a blank and a value", "");
    }
    if (lineStart && got.equals("?") && mark.getColumn() == start.getColumn()) {
      return say(mark, "a key stands among list items", "a line that begins with '- '", "");
    }
    if (lineStart) {
      return say(
          mark,
          "this line begins in column "
              + (mark.getColumn() + 1)
              + ", where nothing above it begins",
          "the column of the entries it belongs with",
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
