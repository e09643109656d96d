package cardproof.link;

/**
 * HELLO; a later version may append to it.
 *
 * <pre>
 *   0       1       2
 *   +-------+-------+
 *   | major | minor |
 *   +-------+-------+
 * </pre>
 */
final class HelloFormat implements Format<Hello> {
  private static final int MAJOR = 0;
  private static final int MINOR = 1;
  private static final int LENGTH = 2;

  @Override
  public int length(Hello message) {
    return LENGTH;
  }

  @Override
  public int length(Body body) {
    return Math.max(LENGTH, body.length());
  }

  @Override
  public void put(Hello hello, Body body) {
    body.putU8(MAJOR, hello.major());
    body.putU8(MINOR, hello.minor());
  }

  @Override
  public Hello get(Body body) {
    return new Hello(body.u8(MAJOR), body.u8(MINOR));
  }
}
