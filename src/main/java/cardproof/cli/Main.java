package cardproof.cli;

/** The program's entry. */
public final class Main {
  private Main() {}

  public static void main(String[] args) {
    throw new UnsupportedOperationException("not wired yet");
  }
}
