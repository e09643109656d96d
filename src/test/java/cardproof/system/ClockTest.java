package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.pty.PosixSignals;
import cardproof.pty.Ptys;
import com.google.gson.JsonParser;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A board whose clock is wrong, in real time over a serial port. */
class ClockTest {
  private static final long LONG_ENOUGH_S = 10;

  @TempDir Path home;

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @ParameterizedTest
  @ValueSource(doubles = {1.03, 1.0})
  void isFoundOutAndToldOnce(double rate) throws Exception {
    Ended ended;
    try (Board board = Board.with("vectors/sum/card.yaml", "rate=" + rate);
        Program program =
            Program.start(
                home,
                "run",
                "vectors/sum/bring-up.yaml",
                "--powered",
                "--port",
                board.port(),
                "--only",
                "at random",
                "--json",
                "--log",
                home.resolve("log.sqlite").toString())) {
      board.journal().await("drives live", j -> j.live(), 20_000);
      TimeUnit.SECONDS.sleep(LONG_ENOUGH_S);
      PosixSignals.TERM.send(program.process());
      ended = program.await();
    }
    double percent =
        JsonParser.parseString(ended.out())
            .getAsJsonObject()
            .get("clockDriftPercent")
            .getAsDouble();
    System.out.printf("a clock at %.2f: found %.2f %% fast%n", rate, percent);
    assertThat(percent).isBetween((rate - 1) * 100 - 0.5, (rate - 1) * 100 + 0.5);
    if (rate == 1.0) {
      assertThat(ended.err()).doesNotContain("clock");
    } else {
      assertThat(ended.err())
          .containsOnlyOnce("warning: the fixture's clock runs ")
          .contains("% faster than this computer's", "too long: 100 ms on it are 9");
    }
  }
}
