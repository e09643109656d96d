package cardproof.plan;

import cardproof.bits.Expression;
import cardproof.card.Bus;
import cardproof.card.Card;
import java.util.AbstractList;
import java.util.ArrayList;
import java.util.List;
import java.util.RandomAccess;

/**
 * The rows of a march test, one for each operation, made when they are asked for; immutable.
 *
 * <p>A write drives address and data and pulses the write line. A read lets go of the data, drives
 * the address and pulses the read line; the word is expected while it is on. Address and data never
 * change while either line is on.
 *
 * <p>The whole test is done with each background in turn. The first is all zeros, in which lines of
 * one word are always alike; then come runs of 1, 2, 4 .. lines, so that any two lines of a word
 * differ in one of them (Dekker, Beenker and Thijssen, International Test Conference 1988; from
 * memory): {@code ceil(log2(width)) + 1} together.
 */
public final class MarchRows extends AbstractList<Row> implements RandomAccess {
  private final Card card;
  private final Memory memory;
  private final List<March.Element> elements;
  private final int perBackground;
  private final int backgrounds;
  private final List<Expected> plain = new ArrayList<>();
  private final List<Expected> complement = new ArrayList<>();

  /**
   * @param backgrounds from 1 to {@link #standardBackgrounds}
   */
  public MarchRows(Card card, Memory memory, March test, int backgrounds) {
    this.card = card;
    this.memory = memory;
    this.elements = test.elements();
    this.perBackground = Math.multiplyExact(test.operationsPerWord(), memory.words());
    this.backgrounds = backgrounds;
    Math.multiplyExact(perBackground, backgrounds);
    for (int b = 0; b < backgrounds; b++) {
      plain.add(expected(word(b, false)));
      complement.add(expected(word(b, true)));
    }
  }

  /** As many as it takes for any two of a word's lines to differ in one, and all zeros. */
  public static int standardBackgrounds(int width) {
    return 1 + Integer.SIZE - Integer.numberOfLeadingZeros(width - 1);
  }

  @Override
  public int size() {
    return perBackground * backgrounds;
  }

  @Override
  public Row get(int index) {
    int background = index / perBackground;
    int rest = index % perBackground;
    for (March.Element element : elements) {
      int operations = element.operations().size();
      if (rest < operations * memory.words()) {
        int place = rest / operations;
        int address = element.down() ? memory.words() - 1 - place : place;
        return row(element.operations().get(rest % operations), address, background);
      }
      rest -= operations * memory.words();
    }
    throw new IndexOutOfBoundsException(index);
  }

  private Row row(March.Operation operation, int address, int background) {
    boolean read = operation.read();
    List<Setting> settings = new ArrayList<>();
    Axis.split(card, memory.address(), address, settings::add);
    settings.add(
        read
            ? Setting.release(memory.data())
            : Setting.to(memory.data(), word(background, operation.complement())));
    settings.add(Setting.to(memory.write(), 0));
    settings.add(Setting.to(memory.read(), 0));
    Expected word = (operation.complement() ? complement : plain).get(background);
    return new Row(
        settings,
        List.of(Setting.to(read ? memory.read() : memory.write(), 1)),
        read ? List.of(word) : List.of(),
        List.of());
  }

  private long word(int background, boolean complement) {
    Bus bus = card.buses().get(memory.data());
    long word = background == 0 ? 0 : Checkerboards.word(bus.width(), 1 << (background - 1));
    return complement ? bus.mask() & ~word : word;
  }

  private Expected expected(long word) {
    return new Expected(
        memory.out(), Expression.compile("0x" + Long.toHexString(word), card.scope()));
  }
}
