package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonParser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SchemaCommandTest {
  @ParameterizedTest
  @ValueSource(strings = {"card", "pair", "plan", "procedures", "fixture"})
  void printsASchemaAndNothingElse(String kind) {
    Cli cli = Cli.run("schema", kind);
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.err()).isEmpty();
    assertThat(JsonParser.parseString(cli.out()).getAsJsonObject().get("$schema").getAsString())
        .isEqualTo("https://json-schema.org/draft/2020-12/schema");
  }

  @Test
  void listsTheKinds() {
    Cli cli = Cli.run("schema");
    assertThat(cli.exitCode()).isZero();
    assertThat(cli.out().lines())
        .containsExactly("card", "pair", "plan", "procedures", "fixture", "relays");
  }

  @Test
  void anUnknownKindGetsTheNearest() {
    Cli cli = Cli.run("schema", "plna");
    assertThat(cli.exitCode()).isEqualTo(ExitCode.USAGE);
    assertThat(cli.err())
        .contains(
            "there is no kind of file 'plna'; wanted one of card, pair, plan, procedures, fixture")
        .contains("Did you mean 'plan'?");
    assertThat(Cli.run("schema", "relay").exitCode()).isEqualTo(ExitCode.USAGE);
  }
}
