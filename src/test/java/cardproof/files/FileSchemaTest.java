package cardproof.files;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.files.draft.CardDraft;
import cardproof.files.draft.CardTopic;
import cardproof.files.draft.PlanDraft;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaId;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SpecVersion.VersionFlag;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Schemas and readers agree: what readers take a schema takes, whichever way it came from YAML to
 * JSON, and what is wrong in structure or form a schema refuses. Judged by a validator of another
 * project, json-schema-validator.
 */
class FileSchemaTest {
  private static final JsonSchemaFactory FACTORY =
      JsonSchemaFactory.getInstance(VersionFlag.V202012);
  private static final Map<FileSchema, JsonSchema> SCHEMAS = new EnumMap<>(FileSchema.class);

  static {
    for (FileSchema kind : FileSchema.values()) {
      SCHEMAS.put(kind, FACTORY.getSchema(kind.text()));
    }
  }

  /** Well formed, and wrong in what names refer to, in widths, or in times held together. */
  private static final Map<String, List<String>> ONLY_READERS =
      Map.of(
          "card",
          List.of(
              // names: of nothing, twice, or in a circle
              "behaviour-of-input",
              "behaviour-of-nothing",
              "behaviour-of-state",
              "bus-name-twice",
              "circles-in-two-places",
              "label-is-a-name",
              "labels-made-twice",
              "labels-twice",
              "outputs-in-a-circle",
              "state-name-is-a-bus",
              // inside expressions, which are one text each
              "expression-folded",
              "expression-in-quotes",
              "expression-unknown-name",
              "quote-anchor",
              // widths and pins, counted together
              "labels-too-few",
              "pins-shared",
              "pins-too-many",
              "pins-twice-in-a-bus",
              "state-power-on-too-wide",
              "supply-least",
              "width-and-pins",
              // times against one another
              "hold-default-too-short",
              "hold-too-short",
              "quiet-below-floor",
              "relays-too-slow",
              "watch-too-short"),
          "pair",
          List.of(
              // the cards' files
              "card-is-a-plan",
              "card-not-there",
              "card-of-itself",
              "card-with-mistakes",
              // names: of nothing, of the wrong way, or twice
              "cable-bus-unknown",
              "cable-card-unknown",
              "cable-cores-twice",
              "cable-from-input",
              "cable-joined-twice",
              "cable-name-of-a-card",
              "cable-shared-twice",
              "cable-shared-with-itself",
              "input-has-cable",
              "input-is-output",
              "outer-name-twice",
              "output-bus-unknown",
              "output-is-input",
              "output-leaves-twice",
              "output-shared",
              "shared-joined-leaves-twice",
              // widths
              "cable-cores-too-few",
              "cable-widths",
              // times and voltages against those of the cards and one another
              "cards-of-different-voltage",
              "hold-longer-than-a-card",
              "quiet-below-floor",
              "relays-below-a-card",
              "relays-too-slow",
              "supply-voltage",
              "watch-longer-than-a-card-holds"),
          "plan",
          List.of(
              // the card's file
              "card-folder-not-there",
              "card-is-a-directory",
              "card-is-a-plan",
              "card-name-impossible",
              "card-not-there",
              // names: of nothing, of the wrong way, or twice; "drive-word" may name a constant
              "drive-output",
              "drive-unknown",
              "drive-word",
              "driven-twice",
              "driven-twice-by-release",
              "each-same-twice",
              "each-unknown-in-key",
              "expect-input",
              "expect-unknown",
              "pulse-output",
              "release-output",
              "still-input",
              "still-label-unknown",
              "still-unknown",
              "sweep-of-no-register",
              "table-columns-bad",
              "table-expects-again",
              "line-driven-twice",
              "line-expected-twice",
              "line-not-there",
              "line-without-brackets",
              "line-wrong-way",
              "march-of-no-memory",
              // procedures: who calls whom and with what, and what comes of it
              "argument-unknown-in-body",
              "call-makes-keys-equal",
              "call-of-itself",
              "call-text-grows",
              "call-too-deep",
              "call-too-many-steps",
              "call-too-many-values",
              "call-without-procedures",
              "call-wrong-inside-deep",
              // files that are included
              "include-circle",
              "include-with-problems",
              // inside expressions
              "expect-bad-expression",
              "expect-bad-number",
              // widths
              "drive-too-wide",
              "each-all-too-wide",
              "each-range-huge",
              "each-single-too-wide",
              "each-too-wide-together",
              "expect-too-wide",
              "line-too-wide",
              "set-list-too-wide",
              "set-used-wrongly",
              "table-cells-bad",
              // lengths, which hang on widths
              "each-never-ends",
              "march-of-everything",
              // times against one another
              "quiet-of-plan-below-floor",
              "quiet-of-step-below-floor",
              "watch-beyond-hold",
              "watch-of-step-too-short"),
          "fixture",
          List.of(
              // voltages against one another
              "thresholds",
              "voltages",
              // wires of a plug against one another
              "plug-two-drives"),
          "relays",
          List.of());

  /** The same of cards with wiring. */
  private static final List<String> ONLY_READERS_OF_WIRING =
      List.of(
          // other files
          "netlist-not-there",
          "wiring-library-is-a-card",
          "wiring-library-not-named",
          "wiring-library-not-there",
          "wiring-library-with-problems",
          // what stands in the netlist
          "netlist-column-missing",
          "netlist-columns-twice",
          "netlist-empty",
          "netlist-many",
          "netlist-net-malformed",
          "netlist-part-not-whole",
          "netlist-pin-twice",
          "netlist-pin-unknown",
          "netlist-quotes",
          "netlist-reference-unknown",
          "netlist-row-short",
          "netlist-semicolons",
          "netlist-supply-elsewhere",
          "netlist-supply-not-wired",
          // names: of nothing, twice, or in a circle
          "wiring-block-unknown",
          "wiring-block-unknown-without-blocks",
          "wiring-block-uses-itself",
          "wiring-blocks-in-a-circle",
          "wiring-ground-not-wired",
          "wiring-mistakes-in-a-block",
          "wiring-pole-twice",
          "wiring-port-to-a-block-without",
          "wiring-ports-missing",
          "wiring-reference-twice",
          "wiring-relay-twice",
          "wiring-repeat-name-unknown",
          "wiring-repeat-not-in-the-name",
          "wiring-supply-is-ground",
          "wiring-supply-not-wired",
          "wiring-type-unknown",
          // inside texts that hold more than one name, or arithmetic
          "wiring-index-by-zero",
          "wiring-index-malformed",
          "wiring-index-negative",
          "wiring-net-long",
          // counted together
          "wiring-beyond-counting",
          "wiring-blocks-multiply",
          "wiring-blocks-too-deep",
          "wiring-line-not-there",
          "wiring-line-not-there-in-a-block",
          "wiring-milliard-relays",
          "wiring-million-relays",
          "wiring-poles-too-many",
          // times against one another
          "wiring-quiet-below-floor",
          "wiring-relays-lower");

  /** Numbers out of range that come as texts, whose size no pattern tells. */
  private static final List<String> UNSEEN_IN_TEXT =
      List.of("state-width", "width-too-large", "poles");

  /** Leading zeros and exponents, which are gone once a bridge has made a number of them. */
  private static final List<String> UNSEEN_IN_CORE =
      List.of("width-leading-zero", "drive-leading-zero", "life");

  private static List<String> refusals(FileSchema kind, JsonNode file) {
    return SCHEMAS.get(kind).validate(file).stream().map(Object::toString).toList();
  }

  private static FileSchema kindOf(JsonNode file) {
    return Stream.of(
            FileSchema.PLAN,
            FileSchema.PAIR,
            FileSchema.FIXTURE,
            FileSchema.PROCEDURES,
            FileSchema.RELAYS)
        .filter(kind -> file.has(keyOf(kind)))
        .findFirst()
        .orElse(FileSchema.CARD);
  }

  private static String keyOf(FileSchema kind) {
    return switch (kind) {
      case PROCEDURES -> "procedures-of";
      case RELAYS -> "relay-types";
      default -> kind.kind();
    };
  }

  private static List<Path> goodFiles() throws IOException {
    List<Path> good = new ArrayList<>();
    for (String root : List.of("vectors", "fixtures", "src/test/resources")) {
      try (Stream<Path> files = Files.walk(Path.of(root))) {
        files
            .filter(file -> file.toString().endsWith(".yaml"))
            .filter(file -> !file.startsWith(Corpus.BAD))
            .forEach(good::add);
      }
    }
    return good;
  }

  @ParameterizedTest
  @EnumSource(Bridge.class)
  void everyGoodFileIsTakenWhicheverWayItComes(Bridge bridge) throws IOException {
    List<Path> good = goodFiles();
    assertThat(good).hasSizeGreaterThan(15);
    for (Path file : good) {
      JsonNode json = bridge.read(file).orElseThrow();
      assertThat(refusals(kindOf(json), json)).as("%s by %s", file, bridge).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource(
      value = Bridge.class,
      names = {"TEXT", "CORE"})
  void everyBadFileIsRefusedButThoseInTheTable(Bridge bridge) {
    for (String kind : List.of("card", "pair", "plan", "fixture", "relays")) {
      TreeSet<String> taken = new TreeSet<>();
      int refused = 0;
      for (Path file : Corpus.files(Corpus.BAD.resolve(kind))) {
        String name = file.getFileName().toString().replace(".yaml", "");
        boolean accepted =
            bridge
                .read(file)
                .map(json -> refusals(FileSchema.of(kind).orElseThrow(), json).isEmpty())
                .orElse(false);
        if (accepted) {
          taken.add(name);
        } else {
          refused++;
        }
      }
      List<String> unseen = bridge == Bridge.TEXT ? UNSEEN_IN_TEXT : UNSEEN_IN_CORE;
      taken.removeAll(unseen);
      assertThat(taken).as("%s by %s", kind, bridge).isEqualTo(new TreeSet<>(only(kind)));
      assertThat(refused).isGreaterThan(15);
    }
  }

  private static List<String> only(String kind) {
    return kind.equals("card")
        ? Stream.of(ONLY_READERS.get(kind), ONLY_READERS_OF_WIRING).flatMap(List::stream).toList()
        : ONLY_READERS.get(kind);
  }

  @ParameterizedTest
  @EnumSource(FileSchema.class)
  void eachIsASchemaByTheMetaschemaOfItsDraft(FileSchema kind) throws IOException {
    JsonSchema metaschema = FACTORY.getSchema(SchemaLocation.of(SchemaId.V202012));
    JsonNode schema = new ObjectMapper().readTree(kind.text());
    assertThat(metaschema.validate(schema)).isEmpty();
    assertThat(metaschema.validate(new ObjectMapper().readTree("{\"type\": \"bus\"}")))
        .isNotEmpty();
  }

  // a plan with everything that procedures bring along
  private static final String PLAN =
      """
      plan: bring-up of a hold card
      card: card.yaml
      include: [../shared/registers.yaml]
      set:
        NEAP: 412
        OPEN: 0b1x
        WORDS: [0x5AC, 0xA53, NEAP]
      procedures:
        put:
          arguments: [word]
          steps:
            - title: put <word> in the register
              drive: {D: <word>}
              pulse: {LD: 1}
        copy:
          arguments: {from: H, to: 0}
          steps:
            - drive: {SEL_<from>: 1}
              pulse: {LD_<to>: 1}
              settle: <to>
            - repeat: <to>
              steps:
                - drive: {"QB": 1, "S[3]": 0}
      steps:
        - call: put
          with: {word: 5}
          title: twice
          tags: [quick]
        - call: put
        - title: hold it
          tags: slow
          sync: true
          drive: {D: NEAP}
          each: {A: WORDS, B: [NEAP, 1], C: 0..NEAP, D: gray, E: {checkerboard: 2}, F: {list: WORDS}}
          expect: {Q: NEAP + 1}
      """;

  private static final String PROCEDURES =
      """
      procedures-of: registers
      include: more.yaml
      set: {ZERO: 0}
      procedures:
        clear: {steps: [{drive: {D: ZERO}}]}
      """;

  @TempDir private Path folder;

  private List<String> refusals(FileSchema kind, String text) throws IOException {
    Path file = folder.resolve("file.yaml");
    Files.writeString(file, text);
    return refusals(kind, Bridge.CORE.read(file).orElseThrow());
  }

  @Test
  void whatTheProgramWritesItselfIsTaken() throws IOException {
    CardDraft draft = CardDraft.empty();
    draft = draft.with(CardTopic.NAME, "latch").with(CardTopic.INPUT, "D:12@J4.12-1");
    draft = draft.with(CardTopic.INPUT, "LD").with(CardTopic.OUTPUT, "Q:12");
    draft = draft.with(CardTopic.STATE, "R:12");
    assertThat(refusals(FileSchema.CARD, draft.text())).isEmpty();
    Path card = folder.resolve("card.yaml");
    Files.writeString(card, draft.text());
    String plan = PlanDraft.of(folder.resolve("plan.yaml"), card, "first: power").text();
    assertThat(refusals(FileSchema.PLAN, plan)).isEmpty();
  }

  @Test
  void proceduresAndConstantsAreTaken() throws IOException {
    assertThat(refusals(FileSchema.PLAN, PLAN)).isEmpty();
    assertThat(refusals(FileSchema.PROCEDURES, PROCEDURES)).isEmpty();
    assertThat(refusals(FileSchema.PROCEDURES, "card: x\n" + PROCEDURES)).isNotEmpty();
    assertThat(refusals(FileSchema.PROCEDURES, PLAN)).isNotEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "with: {word: 5}/wth: {word: 5}",
        "call: put/call: [put]",
        "tags: slow/tags: very slow",
        "sync: true/sync: perhaps",
        "arguments: [word]/arguments: [a word]",
        "[0x5AC, 0xA53, NEAP]/[]",
        "NEAP: 412/NEAP: -412",
        "NEAP: 412/NE-AP: 412",
        "  put:/  1put:",
        "[word]/[word, word]",
        "settle: <to>/settle: to",
        "tags: [quick]/tags: []",
        "D: gray/D: grey-code",
        "checkerboard: 2/checkerboard: 0",
        "checkerboard: 2/checkerboard: 2, by: 3",
        "- call: put/- call: put\n    drive: {A: 1}",
        "[..#shared#registers.yaml]/{}",
      })
  void mistakesInThemAreRefused(String change) throws IOException {
    String[] parts = change.split("/", 2);
    String plan = PLAN.replace(parts[0].replace('#', '/'), parts[1]);
    assertThat(plan).isNotEqualTo(PLAN);
    assertThat(refusals(FileSchema.PLAN, plan)).isNotEmpty();
  }
}
