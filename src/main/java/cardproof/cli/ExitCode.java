package cardproof.cli;

/** What the program's exit code says. Where several apply: usage, trip, link, stopped, failed. */
final class ExitCode {
  static final int PASSED = 0;
  static final int FAILED = 1;
  static final int USAGE = 2;
  static final int LINK = 3;
  static final int STOPPED = 4;
  static final int TRIPPED = 5;

  /** A defect of the program itself, as in the sysexits convention. */
  static final int DEFECT = 70;

  private ExitCode() {}
}
