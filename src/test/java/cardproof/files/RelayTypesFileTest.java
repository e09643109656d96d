package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.wiring.Figure;
import cardproof.card.wiring.RelayType;
import cardproof.card.wiring.Spot;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RelayTypesFileTest {
  private static RelayType type(Path file, String name) {
    return RelayTypesFile.read(file).value().stream()
        .filter(type -> type.name().equals(name))
        .findFirst()
        .orElseThrow();
  }

  // data sheets: TE/Schrack PT 4-pole, Omron MY4, Finder 55.34; resistance of the 55 from its 1 W,
  // release with a diode three times the release but for the PT, whose sheet states it
  @ParameterizedTest
  @CsvSource({
    "PT-4-12V,   12, 192, 15, 10, 18, 6, 8,  30",
    "PT-4-24V,   24, 777, 15, 10, 18, 6, 8,  30",
    "MY4-12V,    12, 165, 20, 20, 60, 6, 8, 100",
    "MY4-24V,    24, 662, 20, 20, 60, 6, 8, 100",
    "55.34-12V,  12, 144,  9,  3,  9, 1, 3,  50",
    "55.34-24V,  24, 576,  9,  3,  9, 1, 3,  50"
  })
  void theLibraryHasTheFiguresOfTheSheets(
      String name,
      long volts,
      double ohms,
      long operateMs,
      long releaseMs,
      long withDiodeMs,
      long bounceNoMs,
      long bounceNcMs,
      long millionsOfOperations) {
    RelayType type = type(Path.of("vectors", "relays.yaml"), name);
    assertThat(type.poles()).isEqualTo(4);
    assertThat(type.coilMillivolts()).isEqualTo(volts * 1000);
    assertThat(type.coilOhms()).isEqualTo(ohms);
    assertThat(type.operate().nominalUs()).isEqualTo(operateMs * 1000);
    assertThat(type.release().nominalUs()).isEqualTo(releaseMs * 1000);
    assertThat(type.releaseWithDiode().nominalUs()).isEqualTo(withDiodeMs * 1000);
    assertThat(type.bounceNo().nominalUs()).isEqualTo(bounceNoMs * 1000);
    assertThat(type.bounceNc().nominalUs()).isEqualTo(bounceNcMs * 1000);
    assertThat(type.lifeOperations()).isEqualTo(millionsOfOperations * 1_000_000);
    assertThat(type.source()).hasSizeGreaterThan(10);
    assertThat(type.operatePercent()).isEqualTo(75);
    assertThat(type.releasePercent()).isEqualTo(10);
  }

  @Test
  void whatASheetCallsTheMostIsNoTypicalFigure() {
    RelayType most = type(Path.of("vectors", "relays.yaml"), "MY4-12V");
    assertThat(most.operate()).isEqualTo(Figure.most(20_000));
    RelayType typical = type(Path.of("vectors", "relays.yaml"), "PT-4-12V");
    assertThat(typical.operate()).isEqualTo(Figure.typical(15_000));
  }

  @Test
  void readsEverythingATypeCanSay() {
    Path file = Corpus.GOOD.resolve("relays").resolve("library.yaml");
    Loaded<List<RelayType>> loaded = RelayTypesFile.read(file);
    assertThat(loaded.warnings()).isEmpty();
    assertThat(loaded.sources()).containsExactly(file);
    assertThat(loaded.value()).extracting(RelayType::name).containsExactly("PT-4-12V", "made-up-1");
    RelayType type = loaded.value().get(1);
    assertThat(type.title()).isEqualTo("made-up-1");
    assertThat(type.coilMillivolts()).isEqualTo(5000);
    assertThat(type.coilOhms()).isEqualTo(100);
    assertThat(type.operate()).isEqualTo(Figure.typical(7000));
    assertThat(type.release()).isEqualTo(Figure.most(4000));
    assertThat(type.bounceNo()).isEqualTo(Figure.typical(0));
    assertThat(type.bounceNc()).isEqualTo(Figure.most(1500));
    assertThat(type.lifeOperations()).isZero();
    // markings of sockets are names of terminals as well (EN 50005, IEC 60947-1)
    assertThat(type.terminals())
        .isEqualTo(
            Map.of(
                "coil1", new Spot(0, 2.54),
                "coil2", new Spot(15.24, 2.54),
                "com1", new Spot(5.08, 0),
                "no1", new Spot(7.62, 0),
                "nc1", new Spot(10.16, 0)));
    assertThat(type.at().line()).isEqualTo(16);
    assertThat(type.at().column()).isEqualTo(3);
  }
}
