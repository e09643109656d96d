package cardproof.log;

/** Whole numbers in decimal with commas between, as the database joins them. */
final class NumberText {
  private final byte[] text;
  private int at;

  NumberText(byte[] text) {
    this.text = text;
  }

  boolean hasNext() {
    return at < text.length;
  }

  long next() {
    boolean negative = text[at] == '-';
    int i = negative ? at + 1 : at;
    long value = 0;
    while (i < text.length && text[i] != ',') {
      value = 10 * value + (text[i++] - '0');
    }
    at = i + 1;
    return negative ? -value : value;
  }
}
