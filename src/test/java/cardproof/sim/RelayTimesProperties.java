package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.RelayFigures;
import cardproof.card.Role;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/**
 * The times of simulated relays keep to the card's figures. Operate time runs to the first closure
 * and bounce is not part of it (MIL-R-5757J glossary; IEC 61810-1 says the same, from memory).
 */
class RelayTimesProperties {
  private static final double SPREAD = 1.08 * 1.02;
  private static final int WIDTH = 8;

  @Property(tries = 100)
  void operateReleaseAndBounceKeepToTheFigures(
      @ForAll long unit,
      @ForAll @IntRange(min = 1, max = 4) int stages,
      @ForAll @IntRange(min = 1, max = 40) int operateMs,
      @ForAll @IntRange(min = 1, max = 40) int releaseMs,
      @ForAll @IntRange(max = 12) int bounceMs) {
    RelayFigures figures =
        new RelayFigures(stages, operateMs * 1000L, releaseMs * 1000L, bounceMs * 1000L);
    CardProbe probe = new CardProbe(through(figures), unit);
    for (long word : new long[] {0xFF, 0x00, 0x5A, 0xA5}) {
      long before = probe.read("Y");
      probe.drive(Map.of("I", word), 1_000_000);
      assertThat(probe.read("Y")).isEqualTo(word);
      assertThat(probe.changes()).hasSize(Long.bitCount(before ^ word));
      probe.changes().values().forEach(changes -> assertInTime(changes, figures));
    }
  }

  private static void assertInTime(List<CardProbe.Change> changes, RelayFigures figures) {
    boolean rising = changes.get(0).level();
    double figureNs = (rising ? figures.operateUs() : figures.releaseUs()) * 1e3;
    long firstNs = changes.get(0).afterNs();
    long lastNs = changes.get(changes.size() - 1).afterNs();

    assertThat(changes.get(changes.size() - 1).level()).isEqualTo(rising);
    assertThat((double) firstNs)
        .isBetween(figureNs / SPREAD * 0.99, figureNs * figures.unseenStages() * SPREAD + 1);
    assertThat(lastNs - firstNs).isBetween(0L, figures.bounceUs() * 1000);
    assertThat(changes.size()).isBetween(1, rising ? 9 : 3);
  }

  @Property(tries = 100)
  void noSilenceOutlastsTheQuietFloor(@ForAll long unit, @ForAll long words) {
    RelayFigures figures = new RelayFigures(3, 15_000, 18_000, 0);
    CardProbe probe = new CardProbe(through(figures), unit);
    probe.drive(Map.of("I", words & 0xFF), 1_000_000);
    long silenceNs = 3 * 18_000_000L;

    probe
        .changes()
        .values()
        .forEach(changes -> assertThat(changes.get(0).afterNs()).isLessThanOrEqualTo(silenceNs));
    assertThat(silenceNs).isLessThan(figures.quietFloorUs() * 1000);
  }

  @Property(tries = 50)
  void aFaultOnOneLineLeavesTheTimesOfOthersAlone(@ForAll long unit) {
    Random random = new Random(unit);
    CardProbe sound = new CardProbe(Cards.sum(WIDTH), unit);
    CardProbe faulty = new CardProbe(Cards.sum(WIDTH), unit, "S[2] stuck at supply");
    for (int i = 0; i < 10; i++) {
      Map<String, Long> levels =
          Map.of("A", (long) random.nextInt(256), "B", (long) random.nextInt(256));
      sound.drive(levels, 300_000).changes().remove("S[2]");
      faulty.drive(levels, 300_000).changes().remove("S[2]");
      assertThat(faulty.changes()).isEqualTo(sound.changes());
    }
  }

  @Property(tries = 50)
  void anotherUnitHasOtherTimes(@ForAll long unit) {
    CardProbe one = new CardProbe(Cards.sum(WIDTH), unit);
    CardProbe other = new CardProbe(Cards.sum(WIDTH), unit + 1);

    one.drive(Map.of("A", 0xFFL), 300_000);
    other.drive(Map.of("A", 0xFFL), 300_000);

    assertThat(one.changes()).isNotEqualTo(other.changes());
  }

  @Property(tries = 20)
  void operationsOfOneLineDifferALittle(@ForAll long unit) {
    CardProbe probe = new CardProbe(through(new RelayFigures(1, 15_000, 18_000, 8_000)), unit);
    Set<Long> first = new HashSet<>();
    for (int i = 0; i < 10; i++) {
      probe.drive(Map.of("I", 1L), 300_000);
      first.add(probe.changes().get("Y[0]").get(0).afterNs());
      probe.drive(Map.of("I", 0L), 300_000);
    }
    long least = first.stream().min(Long::compare).orElseThrow();
    long most = first.stream().max(Long::compare).orElseThrow();
    assertThat(first).hasSizeGreaterThan(5);
    assertThat((double) most / least).isLessThan(1.02 / 0.98 + 1e-6);
  }

  private static Card through(RelayFigures figures) {
    return Cards.named("pass")
        .figures(figures)
        .bus("I", WIDTH, Role.INPUT)
        .output("Y", WIDTH, "I")
        .card();
  }
}
