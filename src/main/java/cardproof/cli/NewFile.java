package cardproof.cli;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/** Writes files that are not there yet, and no others. */
final class NewFile {
  private NewFile() {}

  /**
   * To be called before anybody answers questions in vain.
   *
   * @throws RefusedException where something of that name is there
   */
  static void refuseIfThere(Path file) {
    if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
      throw there(file);
    }
  }

  /**
   * Makes the folders that are missing as well.
   *
   * @throws RefusedException where the file is there, or cannot be written
   */
  static void write(Path file, String text) {
    try {
      Path folder = file.toAbsolutePath().getParent();
      if (!Files.isDirectory(folder)) {
        Files.createDirectories(folder);
      }
      Files.writeString(file, text, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    } catch (FileAlreadyExistsException e) {
      throw there(Path.of(e.getFile()));
    } catch (IOException e) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              "the file cannot be written: " + e.getClass().getSimpleName() + " " + e.getMessage(),
              "a folder that you may write to",
              ""));
    }
  }

  private static RefusedException there(Path file) {
    return new RefusedException(
        new Problem(
            file.toString(),
            "this is there already, and nothing is ever written over",
            "the name of a file that is not there yet",
            "Name another, or move this one away"));
  }
}
