package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.fixture.HookUp;
import cardproof.link.Capability;
import cardproof.link.HelloReply;
import cardproof.log.FixtureUsed;
import cardproof.log.LineName;
import cardproof.log.RunStart;
import cardproof.log.UnitId;
import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;

/** Gathers what the bench log keeps of a run before its first vector. */
final class RunStarts {
  private RunStarts() {}

  static RunStart of(RunSetup setup, HelloReply hello, Instant started) {
    Card card = setup.plan().card();
    return new RunStart(
        new UnitId(card.name(), setup.unit(), simulated(setup, hello)),
        card.title(),
        setup.planFile().toString(),
        setup.plan().title(),
        setup.check().vectors() - setup.from(),
        setup.partial(),
        setup.onBench() ? OptionalLong.of(setup.seed()) : OptionalLong.empty(),
        new FixtureUsed(
            hello.board(), hello.firmware(), hello.boardId(), hello.periodNs(), setup.port()),
        setup.note(),
        setup.faultNames(),
        hashes(setup.sources()),
        limits(card),
        hookUp(setup.hookUp()),
        card.lines().stream().map(RunStarts::lineName).toList(),
        started);
  }

  /** Whether no real card was driven: on the bench in this program, or on a board that says so. */
  static boolean simulated(RunSetup setup, HelloReply hello) {
    return setup.onBench() || hello.has(Capability.SIMULATED);
  }

  static LineName lineName(Line line) {
    return new LineName(
        line.index(),
        line.bus().name(),
        line.bit(),
        line.label(),
        line.pin().toString(),
        line.bus().role().driven(),
        line.bus().role().watched());
  }

  static Map<String, String> hashes(List<Path> files) {
    Map<String, String> hashes = new TreeMap<>();
    for (Path file : files) {
      try {
        byte[] digest = MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file));
        hashes.put(file.toString(), HexFormat.of().formatHex(digest));
      } catch (IOException gone) {
        throw new UncheckedIOException(file + " was read a moment ago", gone);
      } catch (NoSuchAlgorithmException impossible) {
        throw new IllegalStateException("every Java has SHA-256", impossible);
      }
    }
    return hashes;
  }

  private static String limits(Card card) {
    JsonObject json = new JsonObject();
    json.addProperty("settleUs", card.limits().settleUs());
    json.addProperty("quietUs", card.limits().quietUs());
    json.addProperty("watchUs", card.limits().watchUs());
    json.addProperty("holdMs", card.limits().holdMs());
    card.limits().busSettleUs().forEach((bus, us) -> json.addProperty("settleUs." + bus, us));
    return json.toString();
  }

  private static String hookUp(HookUp hookUp) {
    JsonArray rows = new JsonArray();
    for (Line line : hookUp.card().lines()) {
      JsonObject row = new JsonObject();
      row.addProperty("line", line.name());
      if (hookUp.driveOf(line) != HookUp.NOTHING) {
        row.addProperty("drive", hookUp.driveOf(line));
      }
      if (hookUp.watchOf(line) != HookUp.NOTHING) {
        row.addProperty("watch", hookUp.watchOf(line));
      }
      rows.add(row);
    }
    return rows.toString();
  }
}
