package cardproof.files;

import cardproof.fixture.SenseRange;
import cardproof.fixture.SupplySide;
import cardproof.fixture.SupplySwitch;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;

/** What a profile says of the card's supply: whether the fixture can cut it, or see it. */
final class SupplySideReader {
  static final List<String> KEYS = List.of("switch", "current", "voltage");
  static final List<String> SENSE_KEYS = List.of("most", "resolution");

  private final Problems problems;

  SupplySideReader(Problems problems) {
    this.problems = problems;
  }

  SupplySide read(Fields supply) {
    List<String> words = Arrays.stream(SupplySwitch.values()).map(SupplySwitch::word).toList();
    SupplySwitch supplySwitch =
        supply
            .get("switch")
            .flatMap(node -> FixtureReader.word(node, "switch", words, problems))
            .map(word -> SupplySwitch.values()[words.indexOf(word)])
            .orElse(SupplySwitch.NONE);
    return new SupplySide(
        supplySwitch,
        sense(supply, "current", Quantity.CURRENT, "most: 5 A"),
        sense(supply, "voltage", Quantity.VOLTAGE, "most: 30 V"));
  }

  private Optional<SenseRange> sense(Fields supply, String key, Quantity quantity, String example) {
    return supply
        .get(key)
        .flatMap(node -> Fields.of(node, key, SENSE_KEYS, problems))
        .flatMap(fields -> range(fields, quantity, example));
  }

  private Optional<SenseRange> range(Fields fields, Quantity quantity, String example) {
    OptionalLong most =
        fields
            .require("most", example + ", the end of its range")
            .map(n -> quantity.read(n, "most", 1, DriveSideReader.MOST_MILLIVOLTS, problems))
            .orElse(OptionalLong.empty());
    if (most.isEmpty()) {
      return Optional.empty();
    }
    long resolution =
        fields
            .get("resolution")
            .map(n -> quantity.read(n, "resolution", 1, most.getAsLong(), problems).orElse(0))
            .orElse(0L);
    return Optional.of(new SenseRange(most.getAsLong(), resolution));
  }
}
