package cardproof.cli;

/**
 * The program's command line inside this process, for tests that run it hundreds of times.
 *
 * @param exit its exit code
 */
public record RunInside(int exit, String out, String err) {
  public static RunInside of(String... words) {
    Cli cli = Cli.run((Object[]) words);
    return new RunInside(cli.exitCode(), cli.out(), cli.err());
  }
}
