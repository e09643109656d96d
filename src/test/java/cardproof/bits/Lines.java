package cardproof.bits;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** Named lines with values, for tests: {@code new Lines().with("A", "0x0FF")}. */
final class Lines implements Scope {
  private final List<String> names = new ArrayList<>();
  private final List<Literal> words = new ArrayList<>();

  /** The literal gives the line's width as well as its bits. */
  Lines with(String name, String literal) {
    return with(name, Literal.parse(literal));
  }

  Lines with(String name, Literal word) {
    names.add(name);
    words.add(word);
    return this;
  }

  Values values() {
    Values values = new Values(names.size() + 1);
    for (int slot = 0; slot < names.size(); slot++) {
      values.set(slot, words.get(slot).value(), words.get(slot).unknown());
    }
    return values;
  }

  /** The result, cut to {@code width}, as a literal of that width. */
  Literal result(String text, int width) {
    Values values = values();
    int target = names.size();
    Expression.compile(text, this).evaluate(values, values, target, width);
    return new Literal(values.value(target), values.unknown(target), width);
  }

  /** The bits of a line as digits 0, 1 and x, the highest first. */
  String bits(String name) {
    return bits(words.get(slotOf(name)));
  }

  static String bits(Literal word) {
    StringBuilder digits = new StringBuilder();
    for (int bit = word.width() - 1; bit >= 0; bit--) {
      boolean unknown = (word.unknown() >>> bit & 1) != 0;
      digits.append(unknown ? "x" : "" + (word.value() >>> bit & 1));
    }
    return digits.toString();
  }

  @Override
  public int slotOf(String name) {
    return names.indexOf(name);
  }

  @Override
  public int widthOf(int slot) {
    return words.get(slot).width();
  }

  @Override
  public Collection<String> names() {
    return List.copyOf(names);
  }
}
