package cardproof.log;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.function.Consumer;
import org.sqlite.SQLiteConfig;

/**
 * Opens the file of a bench log and makes sure that it is one, whole, and of a version this program
 * knows. Nothing is written to a file before it is known to be a bench log, or empty.
 *
 * <p>The first 100 bytes of a database file are laid out in sqlite.org/fileformat.html, section
 * 1.3; used here: magic at 0, page size at 16, pages at 28.
 */
final class LogFile {
  private static final byte[] MAGIC = "SQLite format 3\0".getBytes(StandardCharsets.US_ASCII);
  private static final int HEADER_BYTES = 100;

  private final Path file;
  private final int busyTimeoutMs;
  private final Schema schema;

  LogFile(Path file, int busyTimeoutMs, Schema schema) {
    this.file = file;
    this.busyTimeoutMs = busyTimeoutMs;
    this.schema = schema;
  }

  /** For writing and reading; creates the log where there is none. */
  Db openForWriting() {
    requireDirectory();
    if (Files.exists(file)) {
      requireMagic();
      if (!Files.isWritable(file)) {
        throw new LogException(LogProblems.readOnly(file));
      }
    }
    return opened(
        connect(false, ""),
        db -> {
          int version = identify(db);
          requireWriteAhead(db);
          if (version < schema.version()) {
            schema.migrate(db);
          }
        });
  }

  /** For reading alone; a log of an earlier version is first brought up to date. */
  Db openForReading() {
    if (!Files.exists(file)) {
      throw new LogException(LogProblems.missing(file));
    }
    requireMagic();
    if (size() == 0) {
      throw new LogException(LogProblems.empty(file));
    }
    int[] version = new int[1];
    Db db = opened(connectForReading(), same -> version[0] = identify(same));
    if (version[0] == schema.version()) {
      return db;
    }
    db.close();
    if (!Files.isWritable(file)) {
      throw new LogException(LogProblems.older(file, version[0], schema.version()));
    }
    openForWriting().close();
    return connectForReading();
  }

  /**
   * A connection without the right to write leaves the two files of the write-ahead log behind when
   * it is the last to close. So where it may, a reader takes that right and promises not to use it.
   */
  private Db connectForReading() {
    boolean mayTidyUp = Files.isWritable(file) && Files.isWritable(directory());
    if (mayTidyUp) {
      return opened(connect(false, "?mode=rw"), db -> db.script("PRAGMA query_only = ON"));
    }
    // Without a write-ahead log beside it nobody is writing, and with no right to make one SQLite
    // could not open it in any other way.
    boolean cannotChange = !Files.isWritable(directory()) && !hasWal();
    return connect(true, cannotChange ? "?immutable=1" : "");
  }

  private Db connect(boolean readOnly, String query) {
    NativeLibrary.load();
    SQLiteConfig config = new SQLiteConfig();
    config.setBusyTimeout(busyTimeoutMs);
    config.setSynchronous(SQLiteConfig.SynchronousMode.NORMAL);
    config.setReadOnly(readOnly);
    // As a URI, so that no character of a path is taken for an option of the driver.
    String url = "jdbc:sqlite:" + file.toAbsolutePath().toUri() + query;
    try {
      Connection connection = config.createConnection(url);
      return new Db(file, connection);
    } catch (SQLException e) {
      throw damageExplained(LogProblems.of(file, e));
    }
  }

  /** Work on a new connection, which is closed again when it fails. */
  private Db opened(Db db, Consumer<Db> work) {
    try {
      work.accept(db);
      return db;
    } catch (LogException e) {
      db.close();
      throw damageExplained(e);
    }
  }

  /** The version of the log, 0 where the database is empty. */
  private int identify(Db db) {
    return db.snapshot(
        () -> {
          int applicationId = (int) db.number("PRAGMA application_id");
          int version = (int) db.number("PRAGMA user_version");
          long tables = db.number("SELECT count(*) FROM sqlite_schema");
          boolean blank = applicationId == 0 && version == 0 && tables == 0;
          if (!blank && applicationId != Schema.APPLICATION_ID) {
            throw new LogException(LogProblems.foreign(file, applicationId));
          }
          if (version > schema.version()) {
            throw new LogException(LogProblems.newer(file, version, schema.version()));
          }
          if (!blank) {
            requireWhole(db);
          }
          return version;
        });
  }

  /** SQLite itself does not notice that part of the last page is missing. */
  private void requireWhole(Db db) {
    long wantedBytes = db.number("PRAGMA page_count") * db.number("PRAGMA page_size");
    if (!hasPagesInWal() && size() < wantedBytes) {
      throw new LogException(LogProblems.truncated(file, size(), wantedBytes));
    }
  }

  private void requireWriteAhead(Db db) {
    String mode = db.list("PRAGMA journal_mode = WAL", row -> row.getString(1)).get(0);
    if (!mode.equals("wal")) {
      throw new LogException(LogProblems.noWriteAhead(file, mode));
    }
  }

  private void requireDirectory() {
    if (!Files.isDirectory(directory())) {
      throw new LogException(LogProblems.noDirectory(file, directory()));
    }
  }

  private void requireMagic() {
    if (Files.isDirectory(file)) {
      throw new LogException(LogProblems.isDirectory(file));
    }
    byte[] start = header();
    int known = Math.min(start.length, MAGIC.length);
    if (!Arrays.equals(start, 0, known, MAGIC, 0, known)) {
      throw new LogException(LogProblems.notADatabase(file));
    }
    if (start.length > 0 && start.length < HEADER_BYTES) {
      throw new LogException(LogProblems.truncated(file, start.length, HEADER_BYTES));
    }
  }

  /** A damaged file that is shorter than its own header says is truncated; say so. */
  private LogException damageExplained(LogException failure) {
    if (!(failure.getCause() instanceof SQLException cause) || !LogProblems.saysDamaged(cause)) {
      return failure;
    }
    ByteBuffer header = ByteBuffer.wrap(header());
    if (header.limit() < HEADER_BYTES) {
      return failure;
    }
    int pageSize = Short.toUnsignedInt(header.getShort(16));
    long wantedBytes = (pageSize == 1 ? 65536L : pageSize) * header.getInt(28);
    return size() < wantedBytes
        ? new LogException(LogProblems.truncated(file, size(), wantedBytes), cause)
        : failure;
  }

  private byte[] header() {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(HEADER_BYTES);
    } catch (IOException e) {
      throw new LogException(LogProblems.unreadable(file, e), e);
    }
  }

  private long size() {
    try {
      return Files.size(file);
    } catch (IOException e) {
      throw new LogException(LogProblems.unreadable(file, e), e);
    }
  }

  /** A write-ahead log exists, so that somebody may be writing. */
  private boolean hasWal() {
    return Files.exists(wal());
  }

  /** A write-ahead log holds pages that the file itself need not have yet. */
  private boolean hasPagesInWal() {
    return wal().toFile().length() > 0;
  }

  private Path wal() {
    return file.resolveSibling(file.getFileName() + "-wal");
  }

  private Path directory() {
    return file.toAbsolutePath().getParent();
  }
}
