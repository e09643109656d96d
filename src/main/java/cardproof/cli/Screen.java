package cardproof.cli;

import java.io.PrintWriter;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;

/**
 * The two streams a command speaks on: results on {@code out}, talk on {@code err}; and whether
 * colour and a moving line may be used. Colour never carries a meaning that the words beside it do
 * not.
 */
record Screen(PrintWriter out, PrintWriter err, boolean terminal, boolean colour) {
  static Screen of(CommandLine command) {
    return new Screen(
        command.getOut(), command.getErr(), System.console() != null, Ansi.AUTO.enabled());
  }

  /** Text that stands out, where colour is on. */
  String strong(String text) {
    return style("bold", text);
  }

  String good(String text) {
    return style("bold,green", text);
  }

  String bad(String text) {
    return style("bold,red", text);
  }

  private String style(String style, String text) {
    return colour ? Ansi.ON.string("@|" + style + " " + text + "|@") : text;
  }
}
