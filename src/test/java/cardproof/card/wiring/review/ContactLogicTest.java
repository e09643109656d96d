package cardproof.card.wiring.review;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Wiring;
import java.util.BitSet;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** What contacts make of the drives, against arithmetic and against what registers are for. */
class ContactLogicTest {
  private static final long SEED = 20_11;

  @Test
  void anAdderAdds() {
    Wiring wiring = Boards.adder(12).wiring();
    ContactLogic logic = new ContactLogic(wiring);
    Random random = new Random(SEED);
    for (int i = 0; i < 500; i++) {
      int a = random.nextInt(4096);
      int b = random.nextInt(4096);
      int carry = random.nextInt(2);
      assertThat(logic.drive(BitSet.valueOf(new long[] {a | b << 12 | (long) carry << 24})))
          .isTrue();
      int sum = 0;
      for (int bit = 0; bit <= 12; bit++) {
        boolean on = logic.on(wiring.net(bit == 12 ? "CO" : "S[" + bit + "]"));
        sum |= on ? 1 << bit : 0;
      }
      assertThat(sum).as(a + " + " + b + " + " + carry).isEqualTo(a + b + carry);
      assertThat(logic.shorted()).isFalse();
    }
  }

  /** Common practice: a register powers up clear, and keeps its value while it is not loaded. */
  @Test
  void aRegisterKeepsWhatItWasGiven() {
    Wiring wiring = Boards.register(4).wiring();
    ContactLogic logic = new ContactLogic(wiring);
    logic.drive(new BitSet());
    assertThat(value(logic, wiring)).isZero();
    for (int word : new int[] {0b1010, 0b0101, 0b1111, 0b0000, 0b1001}) {
      logic.drive(BitSet.valueOf(new long[] {word | 1 << 4}));
      logic.drive(BitSet.valueOf(new long[] {word}));
      assertThat(value(logic, wiring)).isEqualTo(word);
      logic.drive(BitSet.valueOf(new long[] {~word & 15}));
      assertThat(value(logic, wiring)).isEqualTo(word);
    }
  }

  private static int value(ContactLogic logic, Wiring wiring) {
    int value = 0;
    for (int bit = 0; bit < 4; bit++) {
      value |= logic.on(wiring.net("Q[" + bit + "]")) ? 1 << bit : 0;
    }
    return value;
  }

  @Test
  void oneOfEight() {
    Wiring wiring = Boards.decoder().wiring();
    ContactLogic logic = new ContactLogic(wiring);
    for (int code = 0; code < 8; code++) {
      assertThat(logic.drive(BitSet.valueOf(new long[] {code}))).isTrue();
      for (int y = 0; y < 8; y++) {
        assertThat(logic.on(wiring.net("Y[" + y + "]"))).isEqualTo(y == code);
      }
    }
  }

  /** Common practice: a plus-one chain that feeds itself, no register between, never rests. */
  @Test
  void aPlusOneChainThatFeedsItselfGoesOnForEver() {
    ContactLogic logic = new ContactLogic(Boards.plusOneIntoItself(4).wiring());
    assertThat(logic.drive(new BitSet())).isTrue();
    BitSet go = new BitSet();
    go.set(0);
    assertThat(logic.drive(go)).isFalse();
    logic.powerOff();
    assertThat(logic.operated().isEmpty()).isTrue();
    assertThat(logic.drive(new BitSet())).isTrue();
  }
}
