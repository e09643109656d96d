package cardproof.link.serial;

import cardproof.text.Problem;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/**
 * What the file system says about a port, without opening it.
 *
 * @param port the name as the user gave it, a path or a name in {@code /dev}
 */
record DeviceFile(String port) {
  /** Whether ports are files here; on Windows they have names alone. */
  static boolean isNamedByPath() {
    return File.separatorChar == '/';
  }

  /** Why the port cannot be opened, {@code known} being the ports there are; empty: no reason. */
  Optional<Problem> refusal(List<String> known) {
    PortProblems problems = new PortProblems(port);
    if (!isNamedByPath()) {
      boolean there = known.isEmpty() || known.stream().anyMatch(port::equalsIgnoreCase);
      return there ? Optional.empty() : Optional.of(problems.missing(known));
    }
    Path path;
    try {
      path = path();
    } catch (InvalidPathException e) {
      return Optional.of(problems.missing(known));
    }
    if (!Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
      return Optional.of(problems.missing(known));
    }
    if (!Files.exists(path)) {
      return Optional.of(problems.dangling(target(path), known));
    }
    if (Files.isDirectory(path) || Files.isRegularFile(path)) {
      String kind = Files.isDirectory(path) ? "a directory" : "a file and no device";
      return Optional.of(problems.notASerialPort(kind));
    }
    if (!Files.isReadable(path) || !Files.isWritable(path)) {
      return Optional.of(notPermitted());
    }
    return LockHolder.of(real(path)).map(problems::busy);
  }

  /** Who has it open, as far as that can be known; else empty. */
  String holder() {
    return LockHolder.of(real(path())).orElse("");
  }

  /** The name behind all links; the name itself where that cannot be told. */
  String realName() {
    return isNamedByPath() ? real(path()).toString() : port;
  }

  Problem notPermitted() {
    DeviceAccess access = DeviceAccess.of(real(path()));
    return new PortProblems(port).notPermitted(access, System.getProperty("user.name"));
  }

  /** The name as a path. */
  String fullName() {
    return port.indexOf('/') >= 0 ? port : "/dev/" + port;
  }

  Path path() {
    return Path.of(fullName());
  }

  private static String target(Path link) {
    try {
      return link.resolveSibling(Files.readSymbolicLink(link)).toString();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Path real(Path path) {
    try {
      return path.toRealPath();
    } catch (IOException e) {
      return path;
    }
  }
}
