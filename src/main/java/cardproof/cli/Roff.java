package cardproof.cli;

/**
 * Writes the man macros of troff, as man(7) has them: paragraphs, headings and tagged paragraphs.
 * All text is plain; nothing in it is taken for a request.
 */
final class Roff {
  private final StringBuilder page = new StringBuilder();
  private boolean headed;

  /** The title line, first of all. */
  void title(String name, String source, String manual) {
    request("TH", quoted(name), "1", quoted(""), quoted(source), quoted(manual));
    // Ragged right, no words broken: option names stay whole.
    request("nh");
    request("ad", "l");
  }

  void heading(String words) {
    request("SH", quoted(words));
  }

  void paragraph(String words) {
    apart();
    text(words);
  }

  /** A bold tag and what it stands for. */
  void tagged(String tag, String words) {
    request("TP");
    line("\\fB" + escaped(tag) + "\\fR");
    text(words);
  }

  /** A line as it is typed. */
  void typed(String words) {
    apart();
    request("nf");
    request("RS", "4");
    text(words);
    request("RE");
    request("fi");
  }

  /** A heading stands apart by itself; a paragraph macro after it means nothing. */
  private void apart() {
    if (!headed) {
      request("PP");
    }
  }

  void text(String words) {
    words.lines().map(String::strip).filter(line -> !line.isEmpty()).forEach(l -> line(escaped(l)));
  }

  /**
   * Text in which nothing means anything to troff: backslashes, the marks that troff would turn
   * into typographic ones, and a control character at the start of a line.
   */
  static String escaped(String words) {
    StringBuilder text = new StringBuilder();
    words
        .codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '\\' -> text.append("\\(rs");
                case '-' -> text.append("\\-");
                case '\'' -> text.append("\\(aq");
                case '`' -> text.append("\\(ga");
                case '^' -> text.append("\\(ha");
                case '~' -> text.append("\\(ti");
                case '"' -> text.append("\\(dq");
                default -> text.appendCodePoint(c);
              }
            });
    return words.startsWith(".") ? "\\&" + text : text.toString();
  }

  private static String quoted(String words) {
    return '"' + escaped(words) + '"';
  }

  private void request(String name, String... arguments) {
    line("." + String.join(" ", name, String.join(" ", arguments)).strip());
  }

  private void line(String line) {
    headed = line.startsWith(".SH");
    page.append(line).append('\n');
  }

  @Override
  public String toString() {
    return page.toString();
  }
}
