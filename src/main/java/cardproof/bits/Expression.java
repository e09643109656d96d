package cardproof.bits;

import java.util.BitSet;
import java.util.function.IntUnaryOperator;

/**
 * A compiled expression over words in three states, by the rules of IEEE 1364-2005 clause 5 for
 * unsigned vectors without z.
 *
 * <ul>
 *   <li>Precedence as in table 5-4; all operators associate to the left but {@code ?:}.
 *   <li>Widths as in table 5-22; the whole is computed for a target of 64 bits and then cut.
 *   <li>A number is as wide as it is written, a decimal as wide as it needs. An operand that counts
 *       places (index, shift, exponent, replication) and takes its width from a decimal is computed
 *       in 64 bits, as the standard's own decimals, at least 32 bits wide, would have it.
 *   <li>The operands of a comparison are as wide as the wider one: {@code A + B > 0xFFF} never
 *       holds for 12-bit lines, {@code {0b0, A} + B > 0xFFF} sees the carry. With 4095 it is the
 *       same, where the standard's decimal of 32 bits would see the carry; decimals have no sign.
 *   <li>A prefix may follow a prefix, as in {@code !~A}, where the standard asks for parentheses.
 *   <li>Arithmetic (unary plus included) with an x gives all x, so does division by zero; a
 *       relation with an x gives x; {@code ==} gives x only where known bits do not decide it.
 *   <li>Selects apply to names. A constant one outside the name is refused, a computed one reads x.
 * </ul>
 *
 * <p>Compiling may throw; evaluating does not and allocates nothing. Not thread safe: the results
 * of the operators are kept in the expression while it is evaluated. Compile one for each thread.
 */
public final class Expression {
  private final String text;
  private final Scope scope;
  private final BitSet slots;
  private final Node root;
  private final Node[] program;

  private Expression(String text, Scope scope, BitSet slots, Node root, Node[] program) {
    this.text = text;
    this.scope = scope;
    this.slots = slots;
    this.root = root;
    this.program = program;
  }

  /**
   * Compiles a text of up to 10,000 characters, nested up to 200 deep.
   *
   * @throws ExpressionException when the text is no expression over these names
   */
  public static Expression compile(String text, Scope scope) {
    Program program = new Program();
    Parser parser = new Parser(text, scope, program);
    Node root = parser.parse();
    return new Expression(text, scope, parser.names().slots(), root, program.finish());
  }

  /**
   * The same over other slots: its names go on meaning what they meant, and are found elsewhere.
   * Shares nothing with this one.
   *
   * @param slotOf from each of {@link #slots} to a slot of {@code target} that is as wide
   */
  public Expression moved(IntUnaryOperator slotOf, Scope target) {
    return compile(text, new MovedScope(scope, slotOf, target));
  }

  /** Self-determined width in bits, 1 to 64 (IEEE 1364-2005 table 5-22). */
  public int width() {
    return root.width;
  }

  /**
   * Evaluates 64 bits wide, cuts to the lowest {@code width} bits and stores them. {@code in} and
   * {@code out} may be the same: all slots are read before one is written.
   *
   * @param width 1 to 64
   */
  public void evaluate(Values in, Values out, int slot, int width) {
    if (width < 1 || width > Words.MAX_WIDTH) {
      throw new IllegalArgumentException("A word has 1 to 64 bits, not " + width);
    }
    for (Node node : program) {
      node.step(in);
    }
    long bits = Words.mask(width);
    out.set(slot, root.value & bits, root.unknown & bits);
  }

  /** The slots it reads, as a copy of the caller's own. */
  public BitSet slots() {
    return (BitSet) slots.clone();
  }

  /** The text it was compiled from. */
  public String text() {
    return text;
  }

  @Override
  public String toString() {
    return text;
  }
}
