package cardproof.cli;

import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * The file that a wave goes to. It is never written over unless that is asked for, and then only
 * where it is a Value Change Dump already: a slip of the keys must not cost somebody a plan.
 */
final class WaveFile {
  private WaveFile() {}

  /**
   * To be called before anything is driven.
   *
   * @throws RefusedException where something is there that is not to be written over
   */
  static void check(Path file, boolean overwrite) {
    Path folder = file.toAbsolutePath().getParent();
    if (Files.exists(folder) && !Files.isDirectory(folder)) {
      throw new RefusedException(
          new Problem(file.toString(), folder + " is a file", "a folder to put it into", ""));
    }
    if (!Files.exists(file, LinkOption.NOFOLLOW_LINKS) || isPipe(file)) {
      return;
    }
    if (!overwrite) {
      throw there(file);
    }
    if (!Files.isRegularFile(file) || !isVcd(file)) {
      throw new RefusedException(
          new Problem(
              file.toString(),
              "this is there already, and it is no VCD file",
              "a file that --overwrite may replace",
              "Name another, or move this one away"));
    }
  }

  /**
   * Opens it empty, with the folders that are missing. Every write goes straight to the file.
   *
   * @throws RefusedException where it cannot be written
   */
  static OutputStream open(WaveRequest wave) {
    Path file = wave.file();
    try {
      Path folder = file.toAbsolutePath().getParent();
      if (!Files.isDirectory(folder)) {
        Files.createDirectories(folder);
      }
      if (isPipe(file)) {
        return Files.newOutputStream(file, StandardOpenOption.WRITE);
      }
      return wave.overwrite()
          ? Files.newOutputStream(file)
          : Files.newOutputStream(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    } catch (FileAlreadyExistsException e) {
      throw there(Path.of(e.getFile()));
    } catch (IOException e) {
      throw new RefusedException(cannotWrite(file, e));
    }
  }

  /** A pipe or a device, where nothing can be written over and a viewer may be listening. */
  private static boolean isPipe(Path file) {
    return Files.exists(file) && !Files.isRegularFile(file) && !Files.isDirectory(file);
  }

  static String reason(IOException why) {
    return why instanceof AccessDeniedException
        ? "you may not write there"
        : why.getClass().getSimpleName() + " " + why.getMessage();
  }

  private static Problem cannotWrite(Path file, IOException why) {
    return new Problem(
        file.toString(),
        "the file cannot be written: " + reason(why),
        "a folder that you may write to, with room in it",
        "");
  }

  /** Every command of such a file begins with a dollar sign; an empty file was meant to be one. */
  private static boolean isVcd(Path file) {
    try (InputStream in = Files.newInputStream(file)) {
      int first = in.read();
      while (Character.isWhitespace(first)) {
        first = in.read();
      }
      return first == '$' || first < 0;
    } catch (IOException e) {
      throw new RefusedException(cannotWrite(file, e));
    }
  }

  private static RefusedException there(Path file) {
    return new RefusedException(
        new Problem(
            file.toString(),
            "this is there already",
            "the name of a file that is not there yet",
            "Name another, move this one away, or let --overwrite replace it"));
  }
}
