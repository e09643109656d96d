package cardproof.system;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.files.CardFile;
import cardproof.fixture.FixtureProfile;
import cardproof.fixture.HookUp;
import cardproof.fixture.Pattern;
import cardproof.fixture.Session;
import cardproof.fixture.SessionSettings;
import cardproof.link.serial.SerialWire;
import cardproof.pty.Ptys;
import java.nio.file.Path;
import java.util.SplittableRandom;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A program whose own thread is stuck, as on a disk that hangs, while beats go on for a lease. */
class StuckTest {
  private static final String CARD = "src/test/resources/system/latch-card.yaml";

  @BeforeAll
  static void onlyWherePtysAre() {
    Ptys.assumeAvailable();
  }

  @Test
  void anImpatientStopDropsTheDrivesFromAnotherThread() throws Exception {
    assertThat(downMs(true)).isBetween(0L, 900L);
  }

  @Test
  void andWithoutOneTheLeaseEndsAndThenTheSilence() throws Exception {
    // a lease of 0.4 s, a silence time of 1 s, and what a busy machine may add
    assertThat(downMs(false)).isBetween(1000L, 2500L);
  }

  /** How long the drives stay on after the thread got stuck. */
  private static long downMs(boolean impatient) throws Exception {
    Card card = CardFile.read(Path.of(CARD)).value();
    HookUp hookUp = HookUp.of(card, FixtureProfile.serialBoard(255, 255));
    try (Board board = Board.with(CARD);
        SerialWire wire = SerialWire.open(board.port(), 250_000);
        Session session =
            Session.open(wire, hookUp, SessionSettings.of(card), new SplittableRandom(1))) {
      session.arm();
      session.submit(ones(card));
      board.journal().await("drives live", j -> j.live(), 20_000);
      long stuckNs = System.nanoTime();
      if (impatient) {
        CompletableFuture.runAsync(session::dropNow).get(5, TimeUnit.SECONDS);
      }
      board.journal().await("drives down", j -> !j.live(), 10_000);
      long ms = (board.journal().last().atNs() - stuckNs) / 1_000_000;
      System.out.println("stuck, drives down after " + ms + " ms");
      return ms;
    }
  }

  /** Every driven line on, and watched for long. */
  private static Pattern ones(Card card) {
    long[] driven = new long[card.buses().size()];
    long[] none = new long[card.buses().size()];
    for (int b = 0; b < driven.length; b++) {
      driven[b] = card.buses().get(b).role().driven() ? card.buses().get(b).mask() : 0;
    }
    return new Pattern(driven, driven, none, none, none, 5_000_000, 6_000_000, 12_000, true, false);
  }
}
