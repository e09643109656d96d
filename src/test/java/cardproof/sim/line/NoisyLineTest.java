package cardproof.sim.line;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Each kind of mishap on its own, and several in a row. One frame is sent each millisecond. */
class NoisyLineTest {
  private static final int MANY = 20_000;

  private static Track track(String... faults) {
    return Track.of(MANY, 7, faults);
  }

  @Test
  void aSoundLineChangesNothing() {
    Track track = track();
    assertThat(track.numbers()).isEqualTo(IntStream.range(0, MANY).boxed().toList());
    assertThat(track.lateMs()).containsOnly(0.0);
  }

  /** Shares are met within 4 standard deviations of a binomial distribution. */
  @ParameterizedTest
  @CsvSource({"lose, 1", "lose, 10", "lose, 0.1", "flip, 1", "lose bytes, 5", "repeat, 2"})
  void befallsAsManyFramesAsItSays(String kind, double percent) {
    Track track = track("link: " + kind + " " + percent + " %");
    double share = percent / 100;
    double wanted = MANY * share;
    double slack = 4 * Math.sqrt(MANY * share * (1 - share));
    long struck = kind.equals("repeat") ? track.asSent() - MANY : MANY - track.asSent();
    assertThat((double) struck).isBetween(wanted - slack, wanted + slack);
  }

  @Test
  void everyFrameOfAHundredPercent() {
    assertThat(track("link: lose 100 %").pieces()).isEmpty();
    assertThat(track("link: repeat 100 %").pieces()).hasSize(2 * MANY);
    assertThat(track("link: flip 100 %").asSent()).isZero();
    assertThat(track("link: lose bytes 100 %").asSent()).isZero();
  }

  @Test
  void flippedFramesKeepTheirLength() {
    assertThat(track("link: flip 100 %").pieces())
        .allSatisfy(piece -> assertThat(piece.bytes()).hasSize(Track.LENGTH));
  }

  @Test
  void lostBytesAreOneToFourNeighbours() {
    assertThat(track("link: lose bytes 100 %").pieces())
        .allSatisfy(
            piece -> {
              int gone = Track.LENGTH - piece.bytes().length;
              assertThat(gone).isBetween(1, 4);
              assertThat(Track.isWithoutNeighbours(piece.bytes(), gone)).isTrue();
            });
  }

  @Test
  void garbageComesBeforeAFrameThatStaysWhole() {
    Track track = track("link: garbage 50 %");
    assertThat(track.asSent()).isEqualTo(MANY);
    assertThat(track.pieces().size() - MANY).isBetween(MANY * 48 / 100, MANY * 52 / 100);
  }

  @Test
  void aDelayKeepsTheOrder() {
    assertThat(track("link: delay 16 ms").lateMs()).containsOnly(16.0);
    Track jitter = track("link: delay 2 ms to 16 ms");
    assertThat(jitter.numbers()).isSorted().hasSize(MANY);
    assertThat(jitter.lateMs()).allSatisfy(ms -> assertThat(ms).isBetween(2.0, 16.0));
  }

  @Test
  void reorderedFramesAreOvertakenWithinTheirWindow() {
    Track track = track("link: reorder 10 % within 5 ms");
    List<Integer> numbers = track.numbers();
    assertThat(new TreeSet<>(numbers)).hasSize(MANY);
    assertThat(IntStream.range(1, MANY).filter(i -> numbers.get(i) < numbers.get(i - 1)).count())
        .isBetween(MANY * 5L / 100, MANY * 10L / 100);
    assertThat(track.lateMs()).allSatisfy(ms -> assertThat(ms).isBetween(0.0, 5.0));
  }

  /** Frames of 12 bytes at 10 bits a byte, 8N1: 12 ms at 10,000 baud, and they queue. */
  @Test
  void aSlowLineCarriesNoMoreThanItsSpeed() {
    Track track = Track.of(3, 1, "link: speed 10000 baud");
    assertThat(track.pieces().stream().map(p -> p.atNs() / 1e6)).containsExactly(12.0, 24.0, 36.0);
  }

  @Test
  void aCutLineIsDeadForAWhileOrForGood() {
    assertThat(Track.of(10, 1, "link: cut at 3 ms for 4 ms").numbers())
        .containsExactly(0, 1, 2, 7, 8, 9);
    assertThat(Track.of(10, 1, "link: cut at 3 ms").numbers()).containsExactly(0, 1, 2);
    assertThat(Track.of(10, 1, "link: cut every 4 ms for 2 ms").numbers())
        .containsExactly(0, 1, 2, 3, 6, 7);
  }

  @Test
  void aStalledLineGivesAllOfItInTheEnd() {
    Track track = Track.of(10, 1, "link: stall at 3 ms for 4 ms");
    assertThat(track.numbers()).isEqualTo(IntStream.range(0, 10).boxed().toList());
    assertThat(track.lateMs()).containsExactly(0.0, 0.0, 0.0, 4.0, 3.0, 2.0, 1.0, 0.0, 0.0, 0.0);
    assertThat(Track.of(10, 1, "link: stall every 4 ms for 2 ms").lateMs())
        .containsExactly(0.0, 0.0, 0.0, 0.0, 2.0, 1.0, 0.0, 0.0, 2.0, 1.0);
  }

  /** A frame that is late is cut where it is by then, not where it was sent. */
  @Test
  void mishapsLieAlongTheLineInTheirOrder() {
    assertThat(Track.of(10, 1, "link: delay 2 ms, cut at 3 ms").numbers()).containsExactly(0);
    assertThat(Track.of(10, 1, "link: cut at 3 ms, delay 2 ms").numbers()).containsExactly(0, 1, 2);
    Track twice = Track.of(MANY, 1, "link: repeat 100 %, lose 50 %");
    assertThat(twice.pieces().size()).isBetween(MANY * 97 / 100, MANY * 103 / 100);
  }

  @Test
  void theSameSeedGivesTheSameBytesAtTheSameTimes() {
    String fault = "link: lose 5 %, flip 5 %, garbage 5 %, repeat 5 %, reorder 5 %";
    assertThat(Track.of(1000, 3, fault).shown()).isEqualTo(Track.of(1000, 3, fault).shown());
    assertThat(Track.of(1000, 4, fault).shown()).isNotEqualTo(Track.of(1000, 3, fault).shown());
  }

  /** A mishap more leaves the draws of the others alone. */
  @Test
  void oneMoreShiftsNothing() {
    List<Integer> lost = Track.of(1000, 3, "link: lose 5 %").numbers();
    assertThat(Track.of(1000, 3, "link: lose 5 %, delay 4 ms").numbers()).isEqualTo(lost);
  }

  @Test
  void eachDirectionHasItsOwn() {
    LineFault fault = LineFault.parse("link to host: lose 100 %");
    assertThat(Track.of(100, 3, Direction.TO_HOST, fault).pieces()).isEmpty();
    assertThat(Track.of(100, 3, Direction.TO_FIXTURE, fault).pieces()).hasSize(100);
    LineFault both = LineFault.parse("link: lose 50 %");
    assertThat(Track.of(100, 3, Direction.TO_HOST, both).numbers())
        .isNotEqualTo(Track.of(100, 3, Direction.TO_FIXTURE, both).numbers());
  }

  /** Frames are what zeros end, whatever portions a port hands over. */
  @Test
  void portionsOfAFrameShareItsFate() {
    NoisyLine line =
        NoisyLine.of(Direction.TO_HOST, 0, List.of(LineFault.parse("link: delay 1 ms")), 1);
    line.send(new byte[] {1, 2}, 0);
    assertThat(line.nextNs()).isEqualTo(Long.MAX_VALUE);
    line.send(new byte[] {3, 0, 4, 0, 5}, 500_000);
    assertThat(line.take(1_500_000)).containsExactly(1, 2, 3, 0);
    assertThat(line.take(1_500_000)).containsExactly(4, 0);
    assertThat(line.take(Long.MAX_VALUE - 1)).isEmpty();
    byte[] endless = new byte[1024];
    Arrays.fill(endless, (byte) 6);
    line.send(endless, 2_000_000);
    assertThat(line.take(3_000_000)).hasSize(1024);
  }
}
