package cardproof.report;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Writes a Value Change Dump, IEEE 1364-2005 clause 18.2: first what there is ({@link #openScope},
 * {@link #declare}), then {@link #begin}, then values as time goes by. Times are in nanoseconds,
 * which is also the unit of the file: relays take milliseconds, but no edge is ever rounded.
 *
 * <p>Of several values of a variable at one instant the last one counts; a value that is there
 * already is not written again. The stream gets whole lines only, so that a file that was cut off
 * after any call can be read as far as it goes. Not thread safe.
 */
public final class VcdWriter {
  private static final int ROOM = 1 << 16;

  private final OutputStream out;
  private final StringBuilder lines = new StringBuilder();
  private final List<VcdVariable> variables = new ArrayList<>();
  private final List<VcdVariable> queued = new ArrayList<>();
  private int scopes;
  private boolean begun;
  private boolean dumped;
  private long nowNs;
  private long writtenNs;

  /**
   * @param out takes whole lines of ASCII; is not closed here
   */
  public VcdWriter(OutputStream out) {
    this.out = out;
    line("$timescale 1 ns $end");
  }

  /** Who wrote the file. */
  public void version(String text) {
    command("$version", text);
  }

  public void comment(String text) {
    command("$comment", text);
  }

  /** What is declared from here on belongs to this scope, within those that are open. */
  public void openScope(String name) {
    command("$scope", "module " + VcdNames.identifier(name));
    scopes++;
  }

  public void closeScope() {
    if (scopes == 0) {
      throw new IllegalStateException("no scope is open");
    }
    line("$upscope $end");
    scopes--;
  }

  /**
   * @param width in bits; of an integer and of a real, that of its kind
   */
  public VcdVariable declare(VcdKind kind, String name, int width) {
    return declare(
        kind, width, name, width == 1 || !hasRange(kind) ? "" : "[" + (width - 1) + ":0]");
  }

  /** A vector whose lowest bit is not number 0. */
  public VcdVariable declareRange(VcdKind kind, String name, int high, int low) {
    return declare(kind, high - low + 1, name, "[" + high + ":" + low + "]");
  }

  /** One bit out of a vector. */
  public VcdVariable declareBit(VcdKind kind, String name, int bit) {
    return declare(kind, 1, name, "[" + bit + "]");
  }

  private VcdVariable declare(VcdKind kind, int width, String name, String select) {
    checkDeclaring();
    if (scopes == 0) {
      throw new IllegalStateException(name + " is outside of every scope");
    }
    int fixed =
        switch (kind) {
          case INTEGER -> VcdKind.INTEGER_BITS;
          case REAL -> VcdKind.REAL_BITS;
          default -> width;
        };
    if (width < 1 || width != fixed) {
      throw new IllegalArgumentException(name + " of " + width + " bits");
    }
    VcdVariable variable = new VcdVariable(kind, width, variables.size());
    variables.add(variable);
    String reference = VcdNames.identifier(name) + (select.isEmpty() ? "" : " " + select);
    line("$var " + kind.word() + " " + width + " " + variable.code() + " " + reference + " $end");
    return variable;
  }

  /** Closes the declarations; values at this very time are the first ones. */
  public void begin(long timeNs) {
    checkDeclaring();
    while (scopes > 0) {
      closeScope();
    }
    line("$enddefinitions $end");
    begun = true;
    nowNs = timeNs;
  }

  /**
   * @throws IllegalArgumentException for a time that has passed, or a value that the variable
   *     cannot hold
   */
  public void change(long timeNs, VcdVariable variable, VcdValue value) throws IOException {
    variable.check(value);
    advance(timeNs);
    variable.value = value;
    if (!variable.queued) {
      variable.queued = true;
      queued.add(variable);
    }
  }

  /** Hands all values up to this time to the stream; more of the same time may follow. */
  public void flush(long timeNs) throws IOException {
    advance(timeNs);
    send();
  }

  /** Writes what is left, and up to when nothing changed after it. */
  public void end(long timeNs) throws IOException {
    advance(timeNs);
    writeInstant();
    if (writtenNs < nowNs) {
      time();
    }
    send();
  }

  private void advance(long timeNs) throws IOException {
    if (!begun) {
      throw new IllegalStateException("values before the declarations are closed");
    }
    if (timeNs < nowNs) {
      throw new IllegalArgumentException("time goes back from " + nowNs + " to " + timeNs);
    }
    if (timeNs > nowNs) {
      writeInstant();
      nowNs = timeNs;
      if (lines.length() > ROOM) {
        send();
      }
    }
  }

  /** All that changed at the instant that is over. */
  private void writeInstant() {
    if (!dumped) {
      dumpAll();
    } else if (queued.stream().anyMatch(VcdVariable::isNews)) {
      time();
      queued.sort(Comparator.comparingInt(VcdVariable::number));
      queued.stream().filter(VcdVariable::isNews).forEach(this::write);
    }
    queued.forEach(variable -> variable.queued = false);
    queued.clear();
  }

  /** A bit of which nothing is known yet is x; a real has no such value and waits for one. */
  private void dumpAll() {
    dumped = true;
    time();
    line("$dumpvars");
    for (VcdVariable variable : variables) {
      if (variable.value == null && variable.kind() != VcdKind.REAL) {
        variable.value = VcdValue.unknown();
      }
      if (variable.value != null) {
        write(variable);
      }
    }
    line("$end");
  }

  private void time() {
    line("#" + nowNs);
    writtenNs = nowNs;
  }

  private void write(VcdVariable variable) {
    line(variable.change());
    variable.written = variable.value;
  }

  private static boolean hasRange(VcdKind kind) {
    return kind == VcdKind.WIRE || kind == VcdKind.REG;
  }

  private void command(String keyword, String text) {
    checkDeclaring();
    line(keyword + " " + VcdNames.commandText(text) + " $end");
  }

  private void checkDeclaring() {
    if (begun) {
      throw new IllegalStateException("the declarations are closed");
    }
  }

  private void line(String text) {
    lines.append(text).append('\n');
  }

  private void send() throws IOException {
    if (lines.length() > 0) {
      byte[] bytes = lines.toString().getBytes(StandardCharsets.US_ASCII);
      lines.setLength(0);
      out.write(bytes);
    }
  }
}
