package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Role;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The keys that schemas offer are those that readers know. */
class SchemaKeysTest {
  private static JsonNode schema(FileSchema kind) {
    try {
      return new ObjectMapper().readTree(kind.text());
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Arguments keys(FileSchema kind, String place, Collection<String> readers) {
    return Arguments.of(kind, place, readers);
  }

  /** Every map with keys of its own: its schema, its place in that, its reader's keys. */
  static Stream<Arguments> maps() {
    List<String> steps = new ArrayList<>(StepReader.KEYS);
    steps.addAll(StepsReader.REPEAT_KEYS);
    steps.addAll(CallReader.KEYS);
    Stream<Arguments> parts =
        Arrays.stream(PartKind.values())
            .map(
                kind ->
                    keys(
                        FileSchema.CARD,
                        "/$defs/" + (kind == PartKind.BLOCK ? "blockUse" : kind.key() + "Part"),
                        kind.keys()));
    return Stream.concat(parts, others(steps));
  }

  private static Stream<Arguments> others(List<String> steps) {
    return Stream.of(
        keys(FileSchema.CARD, "", CardReader.KEYS),
        keys(FileSchema.CARD, "/$defs/wiring", WiringReader.KEYS),
        keys(FileSchema.CARD, "/$defs/powerNet/anyOf/1", PowerNet.KEYS),
        keys(FileSchema.CARD, "/$defs/block", BlocksReader.KEYS),
        keys(FileSchema.CARD, "/$defs/pole", PolesReader.KEYS),
        keys(FileSchema.CARD, "/$defs/kind/anyOf/1", KindsReader.KEYS),
        keys(FileSchema.RELAYS, "", RelayLibrary.KEYS),
        keys(FileSchema.RELAYS, "/$defs/relayType", RelayTypeReader.KEYS),
        keys(FileSchema.RELAYS, "/$defs/relayType/properties/coil", RelayTypeReader.COIL_KEYS),
        keys(FileSchema.RELAYS, "/$defs/relayType/properties/bounce", RelayTypeReader.BOUNCE_KEYS),
        keys(
            FileSchema.RELAYS,
            "/$defs/relayType/properties/contact-load",
            RelayTypeReader.CONTACT_KEYS),
        keys(FileSchema.RELAYS, "/$defs/figure/anyOf/1", FigureReader.KEYS),
        keys(FileSchema.RELAYS, "/$defs/figureOrNone/anyOf/1", FigureReader.KEYS),
        keys(FileSchema.CARD, "/properties/supply", CardReader.SUPPLY_KEYS),
        keys(FileSchema.CARD, "/properties/limits", LimitsReader.KEYS),
        keys(FileSchema.CARD, "/properties/relays", RelaysReader.KEYS),
        keys(FileSchema.CARD, "/$defs/input", BusesReader.keys(Role.INPUT)),
        keys(FileSchema.CARD, "/$defs/output", BusesReader.keys(Role.OUTPUT)),
        keys(FileSchema.CARD, "/$defs/sharedBus", BusesReader.keys(Role.SHARED)),
        keys(FileSchema.CARD, "/$defs/state", StatesReader.KEYS),
        keys(FileSchema.CARD, "/$defs/labels/anyOf/3", LabelMaker.KEYS),
        keys(FileSchema.PAIR, "", PairReader.KEYS),
        keys(FileSchema.PAIR, "/properties/supply", CardReader.SUPPLY_KEYS),
        keys(FileSchema.PAIR, "/properties/limits", LimitsReader.KEYS),
        keys(FileSchema.PAIR, "/properties/relays", RelaysReader.KEYS),
        keys(FileSchema.PAIR, "/$defs/joint", CableReader.KEYS),
        keys(FileSchema.PLAN, "", PlanReader.KEYS),
        keys(FileSchema.PLAN, "/$defs/step", steps),
        keys(FileSchema.PLAN, "/$defs/table", TableReader.KEYS),
        keys(FileSchema.PLAN, "/$defs/march", MarchReader.KEYS),
        keys(FileSchema.PLAN, "/$defs/sweep", SweepReader.KEYS),
        keys(FileSchema.PLAN, "/$defs/eachMap", WordsReader.KEYS),
        keys(FileSchema.PLAN, "/$defs/procedures/additionalProperties", ProcedureReader.KEYS),
        keys(FileSchema.PROCEDURES, "", LibraryReader.FILE_KEYS),
        keys(FileSchema.FIXTURE, "", FixtureReader.KEYS),
        keys(FileSchema.FIXTURE, "/properties/drives", DriveSideReader.KEYS),
        keys(FileSchema.FIXTURE, "/$defs/voltages", DriveSideReader.VOLTAGE_KEYS),
        keys(FileSchema.FIXTURE, "/$defs/groups", DriveSideReader.GROUP_KEYS),
        keys(FileSchema.FIXTURE, "/properties/watches", WatchSideReader.KEYS),
        keys(FileSchema.FIXTURE, "/properties/supply", SupplySideReader.KEYS),
        keys(FileSchema.FIXTURE, "/properties/loop-back", LoopBackReader.KEYS),
        keys(FileSchema.FIXTURE, "/$defs/currentSense", SupplySideReader.SENSE_KEYS),
        keys(FileSchema.FIXTURE, "/$defs/railSense", SupplySideReader.SENSE_KEYS));
  }

  @ParameterizedTest(name = "{0} {1}")
  @MethodSource("maps")
  void areTheReadersKeys(FileSchema kind, String place, List<String> readers) {
    JsonNode map = schema(kind).at(place);
    Set<String> offered = new TreeSet<>();
    map.get("properties").fieldNames().forEachRemaining(offered::add);
    assertThat(offered).isEqualTo(new TreeSet<>(readers));
    assertThat(map.get("additionalProperties").asBoolean(true)).isFalse();
  }

  @ParameterizedTest
  @EnumSource(FileSchema.class)
  void noMapWithKeysIsLeftOutOfTheTable(FileSchema kind) {
    List<JsonNode> listed =
        maps()
            .filter(m -> m.get()[0] == kind || m.get()[1].toString().startsWith("/$defs"))
            .map(m -> schema((FileSchema) m.get()[0]).at(m.get()[1].toString()).get("properties"))
            .toList();
    List<JsonNode> closed = new ArrayList<>();
    closedMaps(schema(kind), closed);
    assertThat(closed).isNotEmpty();
    assertThat(listed).containsAll(closed);
  }

  private static void closedMaps(JsonNode node, List<JsonNode> found) {
    if (node.has("properties") && node.has("additionalProperties")) {
      found.add(node.get("properties"));
    }
    node.forEach(child -> closedMaps(child, found));
  }

  @Test
  void namedPatternsAreTheReaders() {
    List<String> offered = new ArrayList<>();
    schema(FileSchema.PLAN)
        .at("/$defs/each/additionalProperties/anyOf/0/enum")
        .forEach(word -> offered.add(word.asText()));
    assertThat(offered).containsExactlyInAnyOrderElementsOf(NamedWords.NAMES);
  }

  @ParameterizedTest
  @EnumSource(FileSchema.class)
  void everyKeyIsExplained(FileSchema kind) {
    JsonNode schema = schema(kind);
    List<String> silent = new ArrayList<>();
    unexplained(schema, schema, "", silent);
    assertThat(silent).isEmpty();
  }

  private static void unexplained(JsonNode schema, JsonNode node, String at, List<String> silent) {
    // what a map forbids under a condition needs no words
    if (node.has("additionalProperties") && node.has("properties")) {
      node.get("properties")
          .fields()
          .forEachRemaining(
              property -> {
                JsonNode value = property.getValue();
                while (!value.has("description") && value.has("$ref")) {
                  value = schema.at(value.get("$ref").asText().substring(1));
                }
                if (value.path("description").asText().length() < 10) {
                  silent.add(at + "/" + property.getKey());
                }
              });
    }
    node.fields()
        .forEachRemaining(
            child -> unexplained(schema, child.getValue(), at + "/" + child.getKey(), silent));
  }
}
