package cardproof.log;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.IntStream;

/**
 * The tables of the bench log, version by version. A log carries its version; one that is behind is
 * brought up to date script by script, each in a transaction of its own, so that a log is always of
 * exactly one version.
 */
final class Schema {
  /** "CPRF" in ASCII; marks a database as a bench log (PRAGMA application_id). */
  static final int APPLICATION_ID = 0x43505246;

  private static final int VERSION = 5;

  private final List<String> scripts;

  /**
   * @param scripts the n-th leads from version n to version n + 1
   */
  Schema(List<String> scripts) {
    this.scripts = List.copyOf(scripts);
  }

  static Schema current() {
    return new Schema(IntStream.rangeClosed(1, VERSION).mapToObj(Schema::resource).toList());
  }

  /** The version this program writes. */
  int version() {
    return scripts.size();
  }

  List<String> scripts() {
    return scripts;
  }

  /**
   * Brings the log up to date. The version is read again inside each transaction: another process
   * may be doing the same.
   */
  void migrate(Db db) {
    boolean behind = true;
    while (behind) {
      db.begin();
      try {
        int version = (int) db.number("PRAGMA user_version");
        behind = version < version();
        if (behind) {
          db.script(scripts.get(version));
          db.script("PRAGMA application_id = " + APPLICATION_ID);
          db.script("PRAGMA user_version = " + (version + 1));
        }
        db.commit();
      } catch (LogException e) {
        db.rollback();
        throw e;
      }
    }
  }

  private static String resource(int version) {
    String name = "schema-" + version + ".sql";
    try (InputStream in = Schema.class.getResourceAsStream(name)) {
      if (in == null) {
        throw new IllegalStateException(name + " is missing from the program");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
