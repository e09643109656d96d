package cardproof.log;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.sqlite.SQLiteJDBCLoader;

/**
 * Loads the database's native library from a directory that only this user can write to. The driver
 * alone would unpack it into the shared temporary directory, where another user may have got there
 * first. On systems that allow it the directory is gone again as soon as the library is loaded, so
 * that a killed process leaves nothing behind; else it goes when the program ends.
 */
final class NativeLibrary {
  private static final String WHERE_TO_UNPACK = "org.sqlite.tmpdir";
  private static boolean loaded;

  private NativeLibrary() {}

  static synchronized void load() {
    if (loaded) {
      return;
    }
    String before = System.getProperty(WHERE_TO_UNPACK);
    if (before == null) {
      loadFromPrivateDirectory();
    } else {
      initialize();
    }
    loaded = true;
  }

  private static void loadFromPrivateDirectory() {
    Path directory;
    try {
      directory = Files.createTempDirectory("cardproof-sqlite-");
    } catch (IOException e) {
      throw new LogException(LogProblems.noLibrary(e.toString()), e);
    }
    // Registered before the driver registers its files: the last registered is deleted first.
    directory.toFile().deleteOnExit();
    System.setProperty(WHERE_TO_UNPACK, directory.toString());
    try {
      initialize();
    } finally {
      System.clearProperty(WHERE_TO_UNPACK);
    }
    deleteNow(directory.toFile());
  }

  private static void initialize() {
    boolean done;
    try {
      done = SQLiteJDBCLoader.initialize();
    } catch (Exception e) { // the driver declares no narrower one
      throw new LogException(LogProblems.noLibrary(e.getMessage()), e);
    }
    if (!done) {
      throw new LogException(LogProblems.noLibrary("no reason given"));
    }
  }

  /** Where a loaded library cannot be deleted, what is left goes when the program ends. */
  private static void deleteNow(File directory) {
    File[] files = directory.listFiles();
    boolean empty = files != null;
    if (files != null) {
      for (File file : files) {
        empty &= file.delete();
      }
    }
    if (empty && !directory.delete()) {
      directory.deleteOnExit();
    }
  }
}
