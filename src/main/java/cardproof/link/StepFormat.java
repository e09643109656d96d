package cardproof.link;

/**
 * STEP.
 *
 * <pre>
 *   0        4       5       9       13      17      21
 *   +--------+-------+-------+-------+-------+-------+--
 *   | number | flags | limit | watch | quiet | dwell |
 *   +--------+-------+-------+-------+-------+-------+--
 *   21      21+D     21+2D    21+2D+W 21+2D+2W
 *   +-------+--------+--------+------+-------+
 *   | level | enable | expect | care | still |
 *   +-------+--------+--------+------+-------+
 * </pre>
 */
final class StepFormat implements Format<Step> {
  private static final int NUMBER = 0;
  private static final int FLAGS = 4;
  private static final int LIMIT = 5;
  private static final int WATCH = 9;
  private static final int QUIET = 13;
  private static final int DWELL = 17;
  private static final int LEVEL = 21;

  private static final int GATE = 1;
  private static final int AUDIT = 2;
  private static final int AT_DWELL = 4;
  private static final int CAPTURE = 8;
  private static final int KNOWN = GATE | AUDIT | AT_DWELL | CAPTURE;

  private final int drives;
  private final int watches;
  private final int driveBytes;
  private final int watchBytes;
  private final int enableAt;
  private final int expectAt;
  private final int careAt;
  private final int stillAt;
  private final int length;

  StepFormat(int drives, int watches) {
    this.drives = drives;
    this.watches = watches;
    this.driveBytes = Body.setSize(drives);
    this.watchBytes = Body.setSize(watches);
    this.enableAt = LEVEL + driveBytes;
    this.expectAt = enableAt + driveBytes;
    this.careAt = expectAt + watchBytes;
    this.stillAt = careAt + watchBytes;
    this.length = length(drives, watches);
  }

  /** Bytes of the body for a fixture with these channels. */
  static int length(int drives, int watches) {
    return LEVEL + 2 * Body.setSize(drives) + 3 * Body.setSize(watches);
  }

  @Override
  public int length(Step step) {
    return length;
  }

  @Override
  public int length(Body body) {
    return length;
  }

  @Override
  public void put(Step step, Body body) {
    body.putI32(NUMBER, step.number());
    body.putU8(
        FLAGS,
        (step.gate() ? GATE : 0)
            | (step.audit() ? AUDIT : 0)
            | (step.dwell() ? AT_DWELL : 0)
            | (step.capture() ? CAPTURE : 0));
    body.putU32(LIMIT, step.limitUs());
    body.putU32(WATCH, step.watchUs());
    body.putU32(QUIET, step.quietUs());
    body.putU32(DWELL, step.dwellUs());
    body.putSet(LEVEL, drives, step.level());
    body.putSet(enableAt, drives, step.enable());
    body.putSet(expectAt, watches, step.expect());
    body.putSet(careAt, watches, step.care());
    body.putSet(stillAt, watches, step.still());
  }

  @Override
  public Step get(Body body) {
    int flags = body.u8(FLAGS);
    return new Step(
        body.i32(NUMBER),
        (flags & GATE) != 0,
        (flags & AUDIT) != 0,
        (flags & AT_DWELL) != 0,
        (flags & CAPTURE) != 0,
        body.u32(LIMIT),
        body.u32(WATCH),
        body.u32(QUIET),
        body.u32(DWELL),
        body.set(LEVEL, driveBytes),
        body.set(enableAt, driveBytes),
        body.set(expectAt, watchBytes),
        body.set(careAt, watchBytes),
        body.set(stillAt, watchBytes));
  }

  @Override
  public int unknownBits(Body body) {
    return (body.u8(FLAGS) & ~KNOWN) == 0 ? NO_FIELD : FLAGS;
  }

  @Override
  public int badField(Step step) {
    if (step.watchUs() < 1) {
      return WATCH;
    } else if (step.quietUs() < 1 || step.quietUs() > step.watchUs()) {
      return QUIET;
    } else if (step.dwell() && step.dwellUs() > step.watchUs()) {
      return DWELL;
    } else if (step.level().length() > drives) {
      return LEVEL;
    } else if (step.enable().length() > drives) {
      return enableAt;
    } else if (step.expect().length() > watches) {
      return expectAt;
    } else if (step.care().length() > watches) {
      return careAt;
    }
    return step.still().length() > watches ? stillAt : NO_FIELD;
  }
}
