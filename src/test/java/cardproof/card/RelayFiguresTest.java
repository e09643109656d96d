package cardproof.card;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Figure;
import cardproof.card.wiring.Net;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class RelayFiguresTest {
  private static final Position AT = new Position("card.yaml", 1, 1);
  private static final int GROUND = 1;

  private static RelayType type(long operateUs, long releaseUs, long withDiodeUs, long bounceUs) {
    return new RelayType(
        "made-up",
        "made up",
        1,
        12_000,
        100,
        75,
        10,
        Figure.most(operateUs),
        Figure.typical(releaseUs),
        Figure.typical(withDiodeUs),
        Figure.typical(bounceUs / 2),
        Figure.typical(bounceUs),
        0,
        Map.of(),
        "made up",
        AT);
  }

  private static Relay relay(String name, RelayType type, int coil) {
    return new Relay(
        name, type, coil, GROUND, List.of(new Pole(0, 2, 3)), name, Optional.empty(), AT);
  }

  private static Wiring wiring(Part... parts) {
    List<Net> nets =
        java.util.stream.IntStream.range(0, 6).mapToObj(n -> new Net("n" + n, AT)).toList();
    return new Wiring(nets, 0, GROUND, List.of(), List.of(parts), AT);
  }

  @Test
  void areTheMostOfAllRelays() {
    Wiring wiring =
        wiring(
            relay("K1", type(20_000, 5_000, 90_000, 1_000), 4),
            relay("K2", type(10_000, 8_000, 80_000, 3_000), 5));
    assertThat(RelayFigures.of(wiring, 2)).isEqualTo(new RelayFigures(2, 20_000, 8_000, 3_000));
  }

  @Test
  void aDiodeAcrossACoilLengthensItsRelease() {
    Relay slow = relay("K1", type(20_000, 5_000, 90_000, 1_000), 4);
    Relay plain = relay("K2", type(10_000, 8_000, 80_000, 3_000), 5);
    Diode across = new Diode("D1", GROUND, 5, Optional.empty(), AT);
    Diode elsewhere = new Diode("D2", 4, 2, Optional.empty(), AT);
    assertThat(RelayFigures.of(wiring(slow, plain, across, elsewhere), 1).releaseUs())
        .isEqualTo(80_000);
    assertThat(RelayFigures.of(wiring(slow, plain, elsewhere), 1).releaseUs()).isEqualTo(8_000);
  }

  @Test
  void aCardWithoutRelaysKeepsTheAssumedTimes() {
    assertThat(RelayFigures.of(wiring(), 1)).isEqualTo(RelayFigures.ASSUMED);
  }
}
