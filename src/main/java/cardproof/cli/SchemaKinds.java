package cardproof.cli;

import cardproof.files.FileSchema;
import java.util.Iterator;

/** The kinds of files for completion. */
final class SchemaKinds implements Iterable<String> {
  /** Read by the library of command lines, which makes one by itself. */
  SchemaKinds() {}

  @Override
  public Iterator<String> iterator() {
    return FileSchema.kinds().iterator();
  }
}
