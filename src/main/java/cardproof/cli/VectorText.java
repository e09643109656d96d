package cardproof.cli;

import cardproof.card.Bus;
import cardproof.plan.Vector;
import java.io.IOException;
import java.io.Writer;
import java.util.ArrayList;
import java.util.List;

/** Vectors as lines for a reader. */
final class VectorText implements VectorFormat {
  private final Writer out;

  VectorText(Writer out) {
    this.out = out;
  }

  @Override
  public void begin() {}

  @Override
  public void add(Vector vector, boolean audit) throws IOException {
    out.write(
        (vector.number() + 1)
            + "  "
            + vector.origin()
            + "  "
            + vector.describe()
            + "  ->  "
            + expected(vector)
            + "  "
            + vector.step().title()
            + System.lineSeparator());
  }

  @Override
  public void end() {}

  private static String expected(Vector vector) {
    List<String> parts = new ArrayList<>();
    for (int b = 0; b < vector.care().length; b++) {
      Bus bus = vector.card().buses().get(b);
      if (bus.role().watched()) {
        parts.add(bus.name() + "=" + VectorWords.expected(vector, b));
      }
    }
    return String.join(" ", parts);
  }
}
