package cardproof.log;

import cardproof.text.Problem;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Locale;
import org.sqlite.SQLiteException;

/** Every way a bench log can fail, in words; formatted here and nowhere else. */
final class LogProblems {
  private static final int BUSY = 5;
  private static final int LOCKED = 6;
  private static final int READ_ONLY = 8;
  private static final int IO_ERROR = 10;
  private static final int CORRUPT = 11;
  private static final int FULL = 13;
  private static final int CANNOT_OPEN = 14;
  private static final int NOT_A_DATABASE = 26;

  private LogProblems() {}

  /** What the database refused, by its primary result code (sqlite.org/rescode.html). */
  static LogException of(Path file, SQLException cause) {
    return new LogException(problem(file, cause), cause);
  }

  private static Problem problem(Path file, SQLException cause) {
    return switch (primaryCode(cause)) {
      case BUSY, LOCKED ->
          problem(
              file,
              "locked: another process is writing to this bench log and did not finish in time",
              "",
              "Wait for the other run to end, or give this one a bench log of its own");
      case READ_ONLY -> readOnly(file);
      case CORRUPT -> damaged(file);
      case NOT_A_DATABASE -> notADatabase(file);
      case FULL ->
          problem(
              file,
              "the disk is full; the last vectors could not be recorded",
              "",
              "Everything recorded before is safe. Make room, then run the plan again");
      case CANNOT_OPEN ->
          problem(
              file,
              "the bench log cannot be opened",
              "a file that this user may read, in a directory that this user may write to",
              "Check both");
      case IO_ERROR ->
          problem(
              file,
              "reading or writing the disk failed (" + cause.getMessage() + ")",
              "",
              "Check the disk, and copy the bench log to a good one");
      default -> problem(file, "the database failed (" + cause.getMessage() + ")", "", "");
    };
  }

  /** Whether this failure is one of a file that is not whole. */
  static boolean saysDamaged(SQLException cause) {
    int code = primaryCode(cause);
    return code == CORRUPT || code == NOT_A_DATABASE;
  }

  private static int primaryCode(SQLException cause) {
    return cause instanceof SQLiteException known ? known.getResultCode().code & 0xFF : 0;
  }

  static Problem readOnly(Path file) {
    return problem(
        file,
        "this bench log is read-only",
        "one that this user may write to, in a directory that this user may write to",
        "Change its permissions, or choose another bench log");
  }

  static Problem damaged(Path file) {
    return problem(
        file,
        "this bench log is damaged",
        "",
        "Copy it away, then recover what is left with SQLite's own shell (.recover)");
  }

  static Problem truncated(Path file, long bytes, long wantedBytes) {
    return problem(
        file,
        "this bench log is truncated, " + bytes + " bytes long",
        wantedBytes + " bytes",
        "Take a whole copy, or recover what is left with SQLite's own shell (.recover)");
  }

  static Problem notADatabase(Path file) {
    return problem(
        file,
        "this is not a database",
        "a bench log",
        "Give the name of a bench log, or a new one");
  }

  static Problem foreign(Path file, int applicationId) {
    return problem(
        file,
        String.format(
            Locale.ROOT,
            "this is a database of some other program (application id 0x%08X)",
            applicationId),
        String.format(Locale.ROOT, "a bench log (0x%08X)", Schema.APPLICATION_ID),
        "Give the name of a bench log, or a new one; this file was not changed");
  }

  static Problem newer(Path file, int found, int known) {
    return problem(
        file,
        "this bench log has schema version " + found,
        "at most " + known,
        "It was written by a later version of this program; use that one");
  }

  static Problem older(Path file, int found, int known) {
    return problem(
        file,
        "this bench log has schema version " + found + " and is read-only",
        "version " + known,
        "Make it writable once, so that it can be brought up to date");
  }

  static Problem unreadable(Path file, IOException cause) {
    return problem(
        file,
        "the bench log cannot be read (" + cause + ")",
        "a file that this user may read",
        "Check its permissions");
  }

  static Problem missing(Path file) {
    return problem(file, "there is no such bench log", "", "Run a plan first, or check the name");
  }

  static Problem empty(Path file) {
    return problem(
        file, "this file is empty", "a bench log", "Run a plan first, or check the name");
  }

  static Problem isDirectory(Path file) {
    return problem(file, "this is a directory", "a bench log", "Name a file in it");
  }

  static Problem noDirectory(Path file, Path directory) {
    return problem(
        file,
        "there is no directory " + directory,
        "",
        "Create it, or choose another place for the bench log");
  }

  static Problem noWriteAhead(Path file, String mode) {
    return problem(
        file,
        "this file system only allows the journal mode '" + mode + "'",
        "'wal', which a local disk allows",
        "Put the bench log on a local disk");
  }

  static Problem noLibrary(String reason) {
    return new Problem(
        System.getProperty("java.io.tmpdir"),
        "the database's native library cannot be loaded (" + reason + ")",
        "a temporary directory that this user may write to and run programs from",
        "Name one with -Djava.io.tmpdir=...");
  }

  private static Problem problem(Path file, String found, String wanted, String next) {
    return new Problem(file.toString(), found, wanted, next);
  }
}
