package cardproof.cli;

import cardproof.card.Card;
import cardproof.plan.Audits;
import cardproof.plan.Plan;
import cardproof.plan.Vector;
import cardproof.plan.VectorSource;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.util.function.BiFunction;

/** Writes every vector of a plan as it is made; none is kept. */
final class VectorListing {
  private static final int LOOK_EVERY = 4_096;

  private VectorListing() {}

  /**
   * @throws RefusedException when what is written does not arrive
   */
  static void write(Plan plan, PrintWriter out, BiFunction<Card, Writer, VectorFormat> formatOnto) {
    // The commands' own writers send every line by itself.
    BufferedWriter buffer = new BufferedWriter(out);
    VectorFormat format = formatOnto.apply(plan.card(), buffer);
    VectorSource source = plan.vectors();
    Audits audits = new Audits();
    long written = 0;
    try {
      format.begin();
      while (source.hasNext()) {
        Vector vector = source.next();
        format.add(vector, audits.includes(vector));
        written++;
        if (written % LOOK_EVERY == 0) {
          arrives(buffer, out, written);
        }
      }
      format.end();
      arrives(buffer, out, written);
    } catch (IOException impossible) {
      throw new UncheckedIOException("a print writer keeps its failures to itself", impossible);
    }
  }

  private static void arrives(BufferedWriter buffer, PrintWriter out, long written)
      throws IOException {
    buffer.flush();
    if (out.checkError()) {
      throw new RefusedException(
          new Problem(
              "standard output",
              "it took no more of the list at vector " + written,
              "room for all of it",
              "It was closed, or its disk is full"));
    }
  }
}
