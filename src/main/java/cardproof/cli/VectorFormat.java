package cardproof.cli;

import cardproof.plan.Vector;
import java.io.IOException;

/** One way to write the vectors of a plan down, one after the other. */
interface VectorFormat {
  void begin() throws IOException;

  /**
   * @param audit whether it is watched to its end whatever it does
   */
  void add(Vector vector, boolean audit) throws IOException;

  void end() throws IOException;
}
