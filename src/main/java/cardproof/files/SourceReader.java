package cardproof.files;

import cardproof.text.Nearest;
import cardproof.text.Position;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.yaml.snakeyaml.reader.StreamReader;

/** From a file's name to its text, or to why there is none. */
final class SourceReader {
  /** Far beyond any card or plan, far below what would trouble the memory. */
  static final int MOST_BYTES = 4 << 20;

  private static final int BYTE_ORDER_MARK = 0xFEFF;

  private final Path file;
  private final String name;
  private final Problems problems;

  private SourceReader(Path file, Problems problems) {
    this.file = file;
    this.name = file.toString().isEmpty() ? "." : file.toString();
    this.problems = problems;
  }

  static Optional<SourceText> read(Path file, Problems problems) {
    SourceReader reader = new SourceReader(file, problems);
    return reader.bytes().flatMap(reader::decode).filter(reader::printable).map(reader::text);
  }

  private SourceText text(String text) {
    return SourceText.of(name, text);
  }

  private Optional<byte[]> bytes() {
    if (Files.isDirectory(file)) {
      return refuse("this is a directory", "a file", "Name the file in it");
    }
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(MOST_BYTES + 1);
      if (bytes.length > MOST_BYTES) {
        return refuse(
            "the file is larger than 4 MiB",
            "a card, plan or fixture profile",
            "Divide a long plan over several files, or let 'each' make its patterns");
      }
      return Optional.of(bytes);
    } catch (NoSuchFileException missing) {
      return refuse("there is no such file", "", neighbour(file));
    } catch (AccessDeniedException denied) {
      return refuse("this file may not be read", "", "Look at its permissions");
    } catch (IOException broken) {
      return refuse("this file cannot be read (" + broken.getMessage() + ")", "", "");
    }
  }

  /** A file of nearly this name that is there. */
  static String neighbour(Path file) {
    Path folder = file.toAbsolutePath().getParent();
    Path own = file.getFileName();
    if (folder == null || own == null) {
      return "";
    }
    if (!Files.isDirectory(folder)) {
      return "Its directory '" + folder.getFileName() + "' does not exist either";
    }
    try (Stream<Path> files = Files.list(folder)) {
      List<String> names =
          files.limit(1000).map(path -> path.getFileName().toString()).sorted().toList();
      return Nearest.to(own.toString(), names)
          .map(near -> "Did you mean '" + near + "' beside it?")
          .orElse("Look for a slip in the name");
    } catch (IOException unlisted) {
      return "Its directory cannot be listed (" + unlisted.getMessage() + ")";
    }
  }

  private Optional<String> decode(byte[] bytes) {
    boolean little = bytes.length > 1 && bytes[0] == (byte) 0xFF && bytes[1] == (byte) 0xFE;
    boolean big = bytes.length > 1 && bytes[0] == (byte) 0xFE && bytes[1] == (byte) 0xFF;
    if (little || big) {
      return refuse("this file is written as UTF-16", "UTF-8", "Save it as UTF-8 from the editor");
    }
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(bytes.length + 1);
    CoderResult result =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT)
            .decode(in, out, true);
    String text = out.flip().toString();
    if (result.isError()) {
      problems.error(
          after(text),
          String.format("byte 0x%02X is not part of a UTF-8 text", bytes[in.position()]),
          "UTF-8",
          "Save the file as UTF-8 from the editor");
      return Optional.empty();
    }
    boolean marked = !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK;
    return Optional.of(marked ? text.substring(1) : text);
  }

  /**
   * Refuses characters that YAML forbids, and those that it counts as line ends or as nothing
   * though editors do not, by which every later position would be wrong.
   */
  private boolean printable(String text) {
    for (int at = 0; at < text.length(); at += Character.charCount(text.codePointAt(at))) {
      int here = text.codePointAt(at);
      boolean misleading =
          here == 0x85 || here == 0x2028 || here == 0x2029 || here == BYTE_ORDER_MARK;
      if (misleading || !StreamReader.isPrintable(here)) {
        problems.error(
            after(text.substring(0, at)),
            String.format("an invisible character (U+%04X) stands here", here),
            "printable text",
            "Delete it and type the line again");
        return false;
      }
    }
    return true;
  }

  /** The place behind a text that starts the file. */
  private Position after(String text) {
    List<String> lines = List.of(text.split("\r\n|\r|\n", -1));
    String last = lines.get(lines.size() - 1);
    boolean marked = lines.size() == 1 && !last.isEmpty() && last.charAt(0) == BYTE_ORDER_MARK;
    int column = last.codePointCount(0, last.length()) + (marked ? 0 : 1);
    return new Position(name, lines.size(), column);
  }

  private <T> Optional<T> refuse(String found, String wanted, String next) {
    problems.fileError(name, found, wanted, next);
    return Optional.empty();
  }
}
