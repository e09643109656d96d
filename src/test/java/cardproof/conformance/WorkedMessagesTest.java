package cardproof.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;

/** The suite's own messages against the worked frames of section 10 of the page. */
class WorkedMessagesTest {
  private static final int SESSION = 0x5A17C0DE;
  private static final int BOOT = 0x0A0B0C0D;

  @Test
  void answersAreReadAsThePageSays() throws IOException {
    HelloR hello = HelloR.of(worked("HELLO_R").body());
    assertThat(hello.board()).isEqualTo("Gull Point");
    assertThat(hello.boot()).isEqualTo(BOOT);
    assertThat(hello.drives()).isEqualTo(8);
    assertThat(hello.slots()).isEqualTo(4);
    assertThat(hello.longestFrame()).isEqualTo(128);
    assertThat(hello.periodNs()).isEqualTo(3100);
    assertThat(hello.blindUs()).isEqualTo(30);
    HelloR newer = HelloR.of(worked("HELLO_R_1").body());
    assertThat(newer.mostEntries()).isEqualTo(8);
    assertThat(newer.mostEdges()).isEqualTo(1000);
    assertThat(newer.can(Capability.SEQUENCES)).isTrue();
    assertThat(newer.can(Capability.LATCHES)).isFalse();

    Status status = Status.of(worked("STATUS").body(), hello);
    assertThat(status.state()).isEqualTo(Status.READY);
    assertThat(status.cause()).isEqualTo(Status.BY_OPEN);
    assertThat(status.nowUs()).isEqualTo(1_400_000);
    assertThat(status.whole()).isEqualTo(5);
    assertThat(status.drives()).isEqualTo(Sets.of(0, 2));
    assertThat(status.watches()).isEqualTo(Sets.of(1, 3));

    Result result = Result.of(worked("RESULT").body(), hello);
    assertThat(result.has(Result.QUIET) && result.has(Result.MATCHED)).isTrue();
    assertThat(result.startUs()).isEqualTo(1_234_567);
    assertThat(result.gapUs()).isEqualTo(17_300);
    assertThat(result.entry(3)).isEqualTo(new Result.Entry(3, 15_200, 33_000, 5, 2));

    Edges edges = Edges.of(worked("EDGES").body());
    assertThat(edges.edges())
        .containsExactly(
            new Edges.Edge(35_100, 1, true),
            new Edges.Edge(35_150, 3, true),
            new Edges.Edge(35_600, 3, false));
  }

  @Test
  void requestsAreBuiltAsThePageSays() throws IOException {
    HelloR shape = HelloR.of(worked("HELLO_R").body());
    Open open =
        new Open(
            1000, 8, 5000, 2000, 10_000, java.util.Optional.empty(), java.util.Optional.empty());
    assertThat(open.frame(SESSION, shape, BOOT, 0).line()).isEqualTo(worked("OPEN").line());
    BitSet all = Sets.all(8);
    Step step =
        Step.of(0, 0, 2)
            .flags(Step.GATE)
            .times(350_000, 415_000, 65_000)
            .expecting(Sets.of(1, 3), all)
            .still(7);
    assertThat(step.frame(SESSION, shape).line()).isEqualTo(worked("STEP").line());
    Step sequence =
        Step.of(1, 0)
            .flags(Step.GATE | Step.CAPTURE)
            .times(430_000, 495_000, 65_000)
            .expecting(Sets.of(1, 3), all)
            .then(20_000, 0, 7)
            .then(60_000, 0);
    assertThat(sequence.frame(SESSION, shape).line()).isEqualTo(worked("SEQUENCE").line());
  }

  private static Frame worked(String name) throws IOException {
    String page = Files.readString(Path.of("firmware-notes/protocol.md"));
    String after = page.substring(page.indexOf("\n**" + name + "**"));
    String line = after.substring(after.indexOf("    line  ") + 10);
    int end = line.indexOf("\n\n");
    byte[] bytes =
        HexFormat.of().parseHex((end < 0 ? line : line.substring(0, end)).replaceAll("\\s+", ""));
    return Frame.parse(Arrays.copyOf(bytes, bytes.length - 1)).orElseThrow();
  }
}
