package cardproof.card.wiring.review;

/** Cards of the tide calculator, soldered as they should be. */
final class Boards {
  private Boards() {}

  /**
   * A ripple adder. Per bit: A makes its rails a1 and a0, B crosses them to x1 (A xor B) and x0, C
   * picks between these for the sum; the carry is A and B, or C and one of them.
   */
  static Soldering adder(int bits) {
    Soldering board = new Soldering().supply("IN").fuse("F1", "IN", "+12V");
    for (int i = 0; i < bits; i++) {
      board.input("A[" + i + "]");
    }
    for (int i = 0; i < bits; i++) {
      board.input("B[" + i + "]");
    }
    board.input("CI");
    for (int i = 0; i < bits; i++) {
      board.output("S[" + i + "]");
    }
    board.output("CO");
    for (int i = 0; i < bits; i++) {
      String n = "[" + i + "]";
      String carry = i == 0 ? "CI" : "c[" + i + "]";
      String next = i == bits - 1 ? "CO" : "c[" + (i + 1) + "]";
      board
          .relay(
              "A" + n,
              "A" + n,
              "GND",
              "+12V a1" + n + " a0" + n,
              "+12V g" + n + " -",
              "+12V p" + n + " -")
          .relay(
              "B" + n,
              "B" + n,
              "GND",
              "x1" + n + " a0" + n + " a1" + n,
              "x0" + n + " a1" + n + " a0" + n,
              "g" + n + " " + next + " -",
              "+12V p" + n + " -")
          .relay(
              "C" + n, carry, "GND", "S" + n + " x0" + n + " x1" + n, "p" + n + " " + next + " -")
          .lamp("L" + n, "S" + n, "GND");
    }
    return board.lamp("LC", "CO", "GND");
  }

  /** A register: LD lets the data at each coil, else each relay holds itself. */
  static Soldering register(int bits) {
    Soldering board = new Soldering();
    for (int i = 0; i < bits; i++) {
      board.input("D[" + i + "]");
    }
    board.input("LD");
    for (int i = 0; i < bits; i++) {
      board.output("Q[" + i + "]");
    }
    for (int first = 0; first < bits; first += 4) {
      String[] poles = new String[Math.min(4, bits - first)];
      for (int p = 0; p < poles.length; p++) {
        String n = "[" + (first + p) + "]";
        poles[p] = "r" + n + " D" + n + " hold" + n;
      }
      board.relay("LD" + first / 4, "LD", "GND", poles);
    }
    for (int i = 0; i < bits; i++) {
      String n = "[" + i + "]";
      board
          .relay("R" + n, "r" + n, "GND", "+12V hold" + n + " -", "+12V Q" + n + " -")
          .lamp("L" + n, "Q" + n, "GND");
    }
    return board;
  }

  /** A tree of change-over contacts, one of eight. */
  static Soldering decoder() {
    Soldering board = new Soldering().input("N[0]").input("N[1]").input("N[2]");
    for (int i = 0; i < 8; i++) {
      board.output("Y[" + i + "]").lamp("L[" + i + "]", "Y[" + i + "]", "GND");
    }
    return board
        .relay("N2", "N[2]", "GND", "+12V t1 t0")
        .relay("N1", "N[1]", "GND", "t0 t01 t00", "t1 t11 t10")
        .relay(
            "N0",
            "N[0]",
            "GND",
            "t00 Y[1] Y[0]",
            "t01 Y[3] Y[2]",
            "t10 Y[5] Y[4]",
            "t11 Y[7] Y[6]");
  }

  /**
   * A plus-one chain on its own relays: the output of each bit is bit xor carry, carry-in tied to
   * 1, and feeds the coil of the same bit: no register between.
   */
  static Soldering plusOneIntoItself(int bits) {
    Soldering board = new Soldering().input("GO").relay("G", "GO", "GND", "+12V carry[0] -");
    for (int i = 0; i < bits; i++) {
      String n = "[" + i + "]";
      String next = "carry[" + (i + 1) + "]";
      board
          .output("X" + n)
          .relay(
              "X" + n,
              "next" + n,
              "GND",
              "carry" + n + " " + next + " next" + n,
              "+12V k" + n + " -",
              "+12V X" + n + " -")
          .relay("K" + n, "carry" + n, "GND", "k" + n + " - next" + n)
          .lamp("L" + n, "X" + n, "GND");
    }
    return board.lamp("LC", "carry[" + bits + "]", "GND");
  }
}
