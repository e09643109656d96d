package cardproof.link;

import cardproof.sim.line.Direction;
import com.code_intelligence.jazzer.api.FuzzedDataProvider;
import java.util.function.Function;

/**
 * A fixture that behaves, behind something that does to each frame it sends what a script says:
 * lets it pass, loses it, sends it twice or late, puts bytes before it; and, where it is a liar,
 * changes what it says or says something of its own, with a check that holds.
 */
final class HostileFixture implements VirtualWire.Device {
  private static final int MOST_BYTES = 60;
  private static final int LAST_TYPE = 0x85;

  private final FuzzedDataProvider script;
  private final boolean liar;
  private final Strand said = new Strand(Direction.TO_HOST, 1);
  private final Strand toHost;
  private final ReferenceFixture inside;
  private byte[] late = {};

  HostileFixture(
      FuzzedDataProvider script,
      boolean liar,
      Strand toHost,
      int slots,
      Function<Step, ReferenceFixture.Answer> card) {
    this.script = script;
    this.liar = liar;
    this.toHost = toHost;
    this.inside = new ReferenceFixture(said, slots, 72, card);
  }

  ReferenceFixture inside() {
    return inside;
  }

  @Override
  public void receive(byte[] bytes, long nowNs) {
    inside.receive(bytes, nowNs);
    passOn(nowNs);
  }

  @Override
  public long nextNs() {
    return inside.nextNs();
  }

  @Override
  public void tick(long nowNs) {
    inside.tick(nowNs);
    passOn(nowNs);
  }

  private void passOn(long nowNs) {
    byte[] frame = said.take(Long.MAX_VALUE - 1);
    while (frame.length > 0) {
      tamper(frame, nowNs);
      frame = said.take(Long.MAX_VALUE - 1);
    }
  }

  private void tamper(byte[] frame, long nowNs) {
    int what = script.remainingBytes() == 0 ? 0 : script.consumeInt(0, liar ? 8 : 5);
    switch (what) {
      case 1 -> {
        // lost
      }
      case 2 -> put(script.consumeBytes(script.consumeInt(0, MOST_BYTES)), frame, nowNs);
      case 3 -> put(frame, frame, nowNs);
      case 4 -> {
        byte[] held = late;
        late = frame;
        put(held, nowNs);
      }
      case 5 -> put(late, frame, nowNs);
      case 6 ->
          put(
              RawFrames.altered(frame, script.consumeInt(0, MOST_BYTES), script.consumeByte()),
              nowNs);
      case 7 -> put(made(), frame, nowNs);
      case 8 -> put(frame, made(), nowNs);
      default -> put(frame, nowNs);
    }
  }

  private byte[] made() {
    int session = script.consumeBoolean() ? inside.session() : script.consumeInt();
    int type = script.consumeInt(Types.HELLO_REPLY, LAST_TYPE);
    return RawFrames.encode(type, session, script.consumeBytes(script.consumeInt(0, MOST_BYTES)));
  }

  private void put(byte[] first, byte[] second, long nowNs) {
    put(first, nowNs);
    put(second, nowNs);
  }

  private void put(byte[] bytes, long nowNs) {
    if (bytes.length > 0) {
      toHost.write(bytes, nowNs);
    }
  }
}
