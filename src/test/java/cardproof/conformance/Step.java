package cardproof.conformance;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/**
 * STEP, section 5 (0x06), or SEQUENCE (9.1) where there are entries; all drives are enabled where
 * nothing else is said. Times in microseconds.
 */
record Step(
    long number,
    int flags,
    long limit,
    long watch,
    long quiet,
    long dwell,
    BitSet level,
    Optional<BitSet> enable,
    BitSet expect,
    BitSet care,
    BitSet still,
    List<Entry> entries) {
  static final int GATE = 1;
  static final int AUDIT = 2;
  static final int DWELL = 4;
  static final int CAPTURE = 8;

  /** One more pattern of drives. */
  record Entry(long atUs, BitSet level) {}

  /** Ends when nothing has moved for 4 ms, after 40 ms at the latest. */
  static Step of(long number, int... drivesOn) {
    return new Step(
        number,
        0,
        30_000,
        40_000,
        4_000,
        0,
        Sets.of(drivesOn),
        Optional.empty(),
        Sets.of(),
        Sets.of(),
        Sets.of(),
        List.of());
  }

  Step flags(int all) {
    return new Step(
        number, all, limit, watch, quiet, dwell, level, enable, expect, care, still, entries);
  }

  Step times(long limitUs, long watchUs, long quietUs) {
    return new Step(
        number, flags, limitUs, watchUs, quietUs, dwell, level, enable, expect, care, still,
        entries);
  }

  Step dwellAt(long us) {
    return new Step(
        number, flags, limit, watch, quiet, us, level, enable, expect, care, still, entries);
  }

  Step enabled(int... drives) {
    return new Step(
        number,
        flags,
        limit,
        watch,
        quiet,
        dwell,
        level,
        Optional.of(Sets.of(drives)),
        expect,
        care,
        still,
        entries);
  }

  /** These watches are cared for, the first set expected at 1. */
  Step expecting(BitSet atOne, BitSet caredFor) {
    return new Step(
        number, flags, limit, watch, quiet, dwell, level, enable, atOne, caredFor, still, entries);
  }

  /** This watch alone is cared for. */
  Step expecting(int watchNumber, boolean atOne) {
    return expecting(atOne ? Sets.of(watchNumber) : Sets.of(), Sets.of(watchNumber));
  }

  Step still(int... watches) {
    return new Step(
        number,
        flags,
        limit,
        watch,
        quiet,
        dwell,
        level,
        enable,
        expect,
        care,
        Sets.of(watches),
        entries);
  }

  Step then(long atUs, int... drivesOn) {
    List<Entry> more = new ArrayList<>(entries);
    more.add(new Entry(atUs, Sets.of(drivesOn)));
    return new Step(
        number, flags, limit, watch, quiet, dwell, level, enable, expect, care, still, more);
  }

  Frame frame(int session, HelloR shape) {
    Bytes body = head(shape);
    if (!entries.isEmpty()) {
      body.u8(entries.size());
      addEntries(body, shape);
    }
    return new Frame(entries.isEmpty() ? Type.STEP : Type.SEQUENCE, session, body.done());
  }

  /** A SEQUENCE that says it has so many entries, whatever it has. */
  Frame sequenceOf(int said, int session, HelloR shape) {
    Bytes body = head(shape).u8(said);
    addEntries(body, shape);
    return new Frame(Type.SEQUENCE, session, body.done());
  }

  private void addEntries(Bytes body, HelloR shape) {
    for (Entry entry : entries) {
      body.u32(entry.atUs).set(entry.level, shape.d()).set(Sets.all(shape.drives()), shape.d());
    }
  }

  private Bytes head(HelloR shape) {
    return new Bytes()
        .u32(number)
        .u8(flags)
        .u32(limit)
        .u32(watch)
        .u32(quiet)
        .u32(dwell)
        .set(level, shape.d())
        .set(enable.orElse(Sets.all(shape.drives())), shape.d())
        .set(expect, shape.w())
        .set(care, shape.w())
        .set(still, shape.w());
  }
}
