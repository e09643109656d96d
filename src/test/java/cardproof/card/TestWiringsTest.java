package cardproof.card;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class TestWiringsTest {
  /** Counted by hand: 3 relays with 4, 2 and 3 poles for each bit, and one with one pole. */
  @Test
  void anAdderOfTwelveBitsHas37RelaysAnd109Poles() {
    var relays = TestWirings.adder(12).wiring().orElseThrow().relays();
    assertThat(relays).hasSize(37);
    assertThat(relays.stream().mapToInt(relay -> relay.poles().size()).sum()).isEqualTo(109);
  }
}
