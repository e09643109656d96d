package cardproof.cli;

import java.util.Objects;
import picocli.CommandLine.IVersionProvider;

/** The version that the build wrote into the jar. */
final class Version implements IVersionProvider {
  @Override
  public String[] getVersion() {
    return new String[] {text()};
  }

  static String text() {
    return "cardproof " + number();
  }

  private static String number() {
    String version = Version.class.getPackage().getImplementationVersion();
    return Objects.requireNonNullElse(version, "(not packaged)");
  }
}
