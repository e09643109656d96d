package cardproof.sim.line;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.text.RefusedException;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.CharRange;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class LineFaultTest {
  private static List<Mishap> both(String text) {
    LineFault fault = LineFault.parse(text);
    assertThat(fault.on(Direction.TO_HOST)).isEqualTo(fault.on(Direction.TO_FIXTURE));
    return fault.on(Direction.TO_HOST);
  }

  @Test
  void severalInOneInTheirOrder() {
    assertThat(both("link: lose 1 %, repeat 0.5 %, delay 16 ms"))
        .containsExactly(new Lose(0.01), new Repeat(0.005), new Delay(16_000_000, 16_000_000));
  }

  @Test
  void everyKind() {
    assertThat(
            both(
                "link: lose 1 %, lose bytes 2 %, flip 3 %, repeat 4 %, reorder 5 % within 6 ms,"
                    + " reorder 7 %, garbage 8 %, delay 1 us to 1.5 ms, speed 250000 baud"))
        .containsExactly(
            new Lose(0.01),
            new LoseBytes(0.02),
            new Flip(0.03),
            new Repeat(0.04),
            new Reorder(0.05, 6_000_000),
            new Reorder(0.07, 20_000_000),
            new Garbage(0.08),
            new Delay(1_000, 1_500_000),
            new Speed(250_000));
    assertThat(both("link: cut at 5 s, cut at 5 s for 200 ms, cut every 5 s for 200 ms"))
        .containsExactly(
            new Cut(new Spells(5_000_000_000L, Spells.FOR_GOOD, 0)),
            new Cut(new Spells(5_000_000_000L, 200_000_000, 0)),
            new Cut(new Spells(5_000_000_000L, 200_000_000, 5_000_000_000L)));
    assertThat(both("link: stall at 1 ms for 2 ms, stall every 3 ms for 2 ms"))
        .containsExactly(
            new Stall(new Spells(1_000_000, 2_000_000, 0)),
            new Stall(new Spells(3_000_000, 2_000_000, 3_000_000)));
  }

  @Test
  void oneDirectionOnly() {
    LineFault fault = LineFault.parse("link to fixture: lose 1 %");
    assertThat(fault.on(Direction.TO_FIXTURE)).containsExactly(new Lose(0.01));
    assertThat(fault.on(Direction.TO_HOST)).isEmpty();
    assertThat(LineFault.parse("link to host: lose 1 %").on(Direction.TO_FIXTURE)).isEmpty();
  }

  @Test
  void caseAndSpaceDoNotMatter() {
    LineFault fault = LineFault.parse("  Link  to HOST :lose   1%,delay 16ms ");
    assertThat(fault.on(Direction.TO_HOST))
        .containsExactly(new Lose(0.01), new Delay(16_000_000, 16_000_000));
    assertThat(fault.name()).isEqualTo("Link to HOST :lose 1%,delay 16ms");
  }

  @ParameterizedTest
  @CsvSource({
    "'link: lose 1 %', true",
    "'LINK to host: x', true",
    "'link : x', true",
    "'links: lose 1 %', false",
    "'link stuck at ground', false",
    "'S[3] stuck at ground', false",
    "'', false",
  })
  void isKnownByItsPrefix(String text, boolean one) {
    assertThat(LineFault.isOne(text)).isEqualTo(one);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "link: loose 1 % | 'loose' after ':'; wanted what befalls the link. Did you mean 'lose'?",
        "link: | nothing after ':'; wanted what befalls the link. Known: lose, flip, repeat,"
            + " reorder, garbage, delay, speed, cut, stall.",
        "link to fixtrue: lose 1 % | 'fixtrue' after 'to'; wanted where the link leads to."
            + " Did you mean 'fixture'?",
        "link: lose 1 | nothing after '1'; wanted '%'.",
        "link: flip | nothing after 'flip'; wanted a percentage such as 1 %.",
        "link: lose byte 1 % | 'byte' after 'lose'; wanted a percentage such as 1 %,"
            + " or 'bytes' before it.",
        "link: lose 0 % | 0 % of the frames; wanted more than 0 %, at most 100 %.",
        "link: lose 101 % | 101 % of the frames; wanted more than 0 %, at most 100 %.",
        "link: lose -1 % | '-' after 'lose'; wanted a percentage such as 1 %,"
            + " or 'bytes' before it.",
        "link: delay 16 | nothing after '16'; wanted a unit of time. Known: us, ms, s.",
        "link: delay 0 ms | a time of 0 ms; wanted more than 0, at most a day.",
        "link: delay 999999999 s | a time of 999999999 s; wanted more than 0, at most a day.",
        "link: delay 9 ms to 8 ms | a delay that ends before it begins;"
            + " wanted the shorter time first.",
        "link: cut 5 s | '5' after 'cut'; wanted when. Known: at, every.",
        "link: stall at 5 s | nothing after 's'; wanted 'for'.",
        "link: stall every 1 s for 1 s | it would begin again before it ends;"
            + " wanted a time between two starts that is longer.",
        "link: speed 12 baud | a speed of 12 baud; wanted 300 to 100000000 baud.",
        "link: lose 1 % repeat 1 % | 'repeat' after '%';"
            + " wanted ',' and what else befalls the link, or the end.",
        "link: lose 1 %, | nothing after ','; wanted what befalls the link. Known: lose, flip,"
            + " repeat, reorder, garbage, delay, speed, cut, stall.",
      })
  void refusals(String text, String message) {
    assertThatThrownBy(() -> LineFault.parse(text))
        .isInstanceOf(RefusedException.class)
        .hasMessage("fault '" + text + "': " + message);
  }

  @ParameterizedTest
  @ValueSource(strings = {"link", "lnik: lose 1 %", ":", ""})
  void isRefusedWithoutItsPrefix(String text) {
    assertThatThrownBy(() -> LineFault.parse(text)).isInstanceOf(RefusedException.class);
  }

  @Property(tries = 500)
  void anythingElseIsRefusedInWords(
      @ForAll @StringLength(max = 40) @CharRange(from = ' ', to = '~') String text) {
    try {
      LineFault.parse("link: " + text);
    } catch (RefusedException refused) {
      assertThat(refused.getMessage()).startsWith("fault 'link:");
    }
  }
}
