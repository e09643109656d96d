package cardproof.report;

/** A variable of one {@link VcdWriter}, to be handed back with each of its values. */
public final class VcdVariable {
  private final VcdKind kind;
  private final int width;
  private final int number;
  private final String code;

  /** What is to be written at the writer's time; null before the first value. */
  VcdValue value;

  /** What was written last; null before that. */
  VcdValue written;

  /** Whether the writer has it among those to be looked at. */
  boolean queued;

  VcdVariable(VcdKind kind, int width, int number) {
    this.kind = kind;
    this.width = width;
    this.number = number;
    this.code = VcdNames.code(number);
  }

  public int width() {
    return width;
  }

  VcdKind kind() {
    return kind;
  }

  /** In the order in which the writer's variables were declared. */
  int number() {
    return number;
  }

  String code() {
    return code;
  }

  boolean isNews() {
    return !value.equals(written);
  }

  void check(VcdValue next) {
    if (next.real() != (kind == VcdKind.REAL) || !next.real() && next.digits().length() > width) {
      throw new IllegalArgumentException(
          next.digits() + " for a " + kind.word() + " of " + width + " bits");
    }
  }

  /** The line that gives its value: no blank for one bit, one for a vector or a real. */
  String change() {
    String digits = value.digits();
    if (kind == VcdKind.REAL) {
      return "r" + digits + " " + code;
    }
    return width == 1 ? digits + code : "b" + digits + " " + code;
  }
}
