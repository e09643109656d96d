package cardproof.log;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Random;

/** Runs of the Gull Point sum card for tests: 38 lines, of which S and CO are watched. */
public final class SumCard {
  public static final Instant NOON = Instant.parse("2026-03-01T12:00:00Z");
  public static final Clock CLOCK = Clock.fixed(NOON, ZoneOffset.UTC);
  public static final int FIRST_OUTPUT = 25;
  public static final int LINES = 38;

  private SumCard() {}

  public static List<LineName> lines() {
    List<LineName> lines = new ArrayList<>();
    bus(lines, "A", 12, "J1.", true);
    bus(lines, "B", 12, "J2.", true);
    bus(lines, "CI", 1, "J3.", true);
    bus(lines, "S", 12, "J4.", false);
    bus(lines, "CO", 1, "J5.", false);
    return lines;
  }

  private static void bus(List<LineName> lines, String bus, int width, String pin, boolean driven) {
    for (int bit = 0; bit < width; bit++) {
      String label = width == 1 ? bus : bus + Integer.toHexString(bit).toUpperCase(Locale.ROOT);
      lines.add(new LineName(lines.size(), bus, bit, label, pin + (bit + 1), driven, !driven));
    }
  }

  public static RunStart start(UnitId unit) {
    return start(unit, NOON);
  }

  public static RunStart start(UnitId unit, Instant started) {
    return new RunStart(
        unit,
        "12-bit sum card",
        "bring-up",
        "bring-up of a sum card",
        266,
        false,
        unit.simulated() ? OptionalLong.of(42) : OptionalLong.empty(),
        new FixtureUsed("tower-48", "1.2.0", 0xFEDCBA9876543210L, 32_000, "/dev/ttyACM0"),
        "after the relays came",
        List.of(),
        Map.of("card.yaml", "0".repeat(64), "plan.yaml", "f".repeat(64)),
        "{\"settleUs\":350000}",
        "{\"J1\":\"drive 0-11\"}",
        lines(),
        started);
  }

  public static StepTitle step(int step) {
    return new StepTitle(
        step,
        "plan.yaml",
        4 + step,
        "step " + step,
        step % 2 == 0 ? "plan.yaml:40, lib.yaml:7" : "");
  }

  /** A passed vector in which every output moved. */
  public static VectorRecord passed(long number, Random random) {
    List<MovedLine> moved = new ArrayList<>();
    for (int line = FIRST_OUTPUT; line < LINES; line++) {
      long firstUs = 12_000 + random.nextInt(100_000);
      moved.add(
          new MovedLine(
              line,
              random.nextBoolean(),
              firstUs,
              firstUs + random.nextInt(8_000),
              1 + random.nextInt(6),
              1,
              false,
              false));
    }
    return vector(number, Verdict.PASS, "", moved, random);
  }

  public static VectorRecord judged(long number, Verdict verdict, MovedLine... moved) {
    return vector(
        number, verdict, verdict.word() + " somewhere", List.of(moved), new Random(number));
  }

  public static MovedLine moved(int line, boolean endsHigh, long lastUs) {
    return new MovedLine(line, endsHigh, lastUs / 2, lastUs, 3, 1, false, false);
  }

  public static MovedLine stillMoving(int line, boolean endsHigh, long lastUs) {
    return new MovedLine(line, endsHigh, lastUs / 2, lastUs, 9, 4, true, false);
  }

  private static VectorRecord vector(
      long number, Verdict verdict, String why, List<MovedLine> moved, Random random) {
    return new VectorRecord(
        number,
        0,
        number,
        verdict,
        why,
        45_000 * number,
        300_000,
        20_000 + random.nextInt(20_000),
        65_000,
        set(random, 0, FIRST_OUTPUT),
        set(random, 0, FIRST_OUTPUT),
        set(random, FIRST_OUTPUT, LINES),
        set(random, FIRST_OUTPUT, LINES),
        set(random, FIRST_OUTPUT, LINES),
        set(random, FIRST_OUTPUT, LINES),
        moved);
  }

  private static BitSet set(Random random, int from, int to) {
    BitSet set = new BitSet();
    for (int i = from; i < to; i++) {
      set.set(i, random.nextBoolean());
    }
    return set;
  }
}
