package cardproof.sim;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.link.Arm;
import cardproof.link.Beat;
import cardproof.link.FixtureState;
import cardproof.link.Frame;
import cardproof.link.Nack;
import cardproof.link.NackReason;
import cardproof.link.Open;
import cardproof.link.Status;
import cardproof.link.Step;
import cardproof.link.Stop;
import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.BitSet;
import java.util.zip.CRC32;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What is refused, with which reason, and which reason wins where several hold: {@code
 * firmware-notes/protocol.md}, section 5. Frames that no host should send are put together here by
 * hand, byte for byte.
 */
class RefusalsTest {
  private static final int OTHER = 0x0BAD_CAFE;
  private static final int STEP_TYPE = 0x06;

  private final RawHost host = FixtureStatesTest.in(FixtureState.READY);

  /** Type, session and body, with check, in COBS (Cheshire and Baker, 1999), zero at the end. */
  private static byte[] line(int type, int session, byte[] body) {
    ByteBuffer plain = ByteBuffer.allocate(9 + body.length).order(ByteOrder.LITTLE_ENDIAN);
    plain.put((byte) type).putInt(session).put(body);
    CRC32 crc = new CRC32();
    crc.update(plain.array(), 0, 5 + body.length);
    plain.putInt((int) crc.getValue());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream block = new ByteArrayOutputStream();
    for (byte one : plain.array()) {
      if (one == 0) {
        out.write(block.size() + 1);
        out.writeBytes(block.toByteArray());
        block.reset();
      } else {
        block.write(one);
      }
    }
    out.write(block.size() + 1);
    out.writeBytes(block.toByteArray());
    out.write(0);
    return out.toByteArray();
  }

  private Nack refused(int type, int session, byte[] body) {
    host.wire.write(line(type, session, body));
    Frame frame = host.next(0);
    assertThat(frame.session()).as("a NACK carries the session it refuses").isEqualTo(session);
    return (Nack) frame.message();
  }

  private static byte[] step(int number, int flags, long watchUs, long quietUs, int... sets) {
    ByteBuffer body = ByteBuffer.allocate(26).order(ByteOrder.LITTLE_ENDIAN);
    body.putInt(number).put((byte) flags).putInt(350_000);
    body.putInt((int) watchUs).putInt((int) quietUs).putInt(50_000);
    for (int set : sets) {
      body.put((byte) set);
    }
    return body.array();
  }

  private static byte[] good(int number) {
    return step(number, 0, 400_000, 65_000, 1, 3, 0, 0, 0);
  }

  @ParameterizedTest
  @ValueSource(
      ints = {0x00, 0x09, 0x1A, 0x1A, 0x40, 0x7F, 0x80, 0x81, 0x82, 0x83, 0x84, 0xC0, 0xFF})
  void typesThatAreNotTheHosts(int type) {
    for (int length : new int[] {0, 26, 60}) {
      assertThat(refused(type, RawHost.SESSION, new byte[length]))
          .isEqualTo(new Nack(NackReason.UNKNOWN_TYPE, type, 1, 0));
    }
  }

  @ParameterizedTest
  @CsvSource({"1, 1", "2, 20", "2, 22", "3, 1", "4, 1", "5, 3", "6, 25", "6, 27", "7, 5", "8, 0"})
  void bodiesOfAnotherLength(int type, int length) {
    assertThat(refused(type, RawHost.SESSION, new byte[length]).reason())
        .isEqualTo(NackReason.BAD_LENGTH);
    assertThat(refused(type, OTHER, new byte[length]).reason())
        .as("length before session")
        .isEqualTo(NackReason.BAD_LENGTH);
  }

  @Test
  void oneReasonAfterAnother() {
    // everything wrong but the length; then put right one thing after another
    int badDrive = 0b100;
    byte[] bad = step(5, 0, 0, 0, badDrive, badDrive, 0, 0, 0);
    assertThat(refused(STEP_TYPE, OTHER, bad).reason()).isEqualTo(NackReason.WRONG_SESSION);
    assertThat(refused(STEP_TYPE, RawHost.SESSION, bad).reason())
        .isEqualTo(NackReason.OUT_OF_ORDER);
    host.send(new Stop());
    host.rest(0);
    assertThat(refused(STEP_TYPE, RawHost.SESSION, bad).reason())
        .as("state before number")
        .isEqualTo(NackReason.WRONG_STATE);
  }

  @Test
  void slotBeforeDrivesBeforeFields() {
    int slots = host.board().slots();
    RawHost opened = FixtureStatesTest.in(FixtureState.OPENED);
    opened.hello();
    Open allowsOne = opened.usual();
    allowsOne.drives().clear(1);
    opened.open(77, allowsOne);
    byte[] badFields = step(0, 0, 0, 0, 0, 0b10, 0, 0, 0);

    opened.wire.write(line(STEP_TYPE, 77, badFields));
    assertThat(opened.expect(Nack.class, 0).reason()).isEqualTo(NackReason.DRIVE_NOT_ALLOWED);
    opened.wire.write(line(STEP_TYPE, 77, step(0, 0, 0, 0, 0, 0b01, 0, 0, 0)));
    assertThat(opened.expect(Nack.class, 0))
        .isEqualTo(new Nack(NackReason.BAD_FIELD, STEP_TYPE, 0, 9));

    for (int number = 0; number < slots; number++) {
      opened.send(Steps.number(number).step());
    }
    assertThat(opened.rest(0)).as("taken without an answer").isEmpty();
    opened.wire.write(line(STEP_TYPE, 77, step(slots, 0, 0, 0, 0, 0b10, 0, 0, 0)));
    assertThat(opened.expect(Nack.class, 0))
        .isEqualTo(new Nack(NackReason.NO_SLOT_FREE, STEP_TYPE, slots, 0));
  }

  @ParameterizedTest
  @CsvSource({
    "0, 0,      65000,  1, 3, 0, 0, 0, 9",
    "0, 400000, 0,      1, 3, 0, 0, 0, 13",
    "0, 400000, 400001, 1, 3, 0, 0, 0, 13",
    "4, 40000,  10000,  1, 3, 0, 0, 0, 17",
    "0, 400000, 65000,  4, 3, 0, 0, 0, 21",
    "0, 400000, 65000,  1, 7, 0, 0, 0, 22",
    "0, 400000, 65000,  1, 3, 4, 0, 0, 23",
    "0, 400000, 65000,  1, 3, 0, 4, 0, 24",
    "0, 400000, 65000,  1, 3, 0, 0, 4, 25"
  })
  void fieldsOfAStep(
      int flags,
      long watch,
      long quiet,
      int level,
      int enable,
      int expect,
      int care,
      int still,
      int at) {
    byte[] body = step(1, flags, watch, quiet, level, enable, expect, care, still);

    assertThat(refused(STEP_TYPE, RawHost.SESSION, body))
        .isEqualTo(new Nack(NackReason.BAD_FIELD, STEP_TYPE, 1, at));
    assertThat(host.ask(new Beat(0), Status.class).next()).isEqualTo(1);
  }

  @ParameterizedTest
  @CsvSource({
    "99,    8, 5000, 10000, 3, 3, 8",
    "10001, 8, 5000, 10000, 3, 3, 8",
    "1000,  1, 5000, 10000, 3, 3, 10",
    "1000,  8, 15,   10000, 3, 3, 11",
    "1000,  8, 5000, 0,     3, 3, 15",
    "1000,  8, 5000, 10000, 7, 3, 19",
    "1000,  8, 5000, 10000, 3, 7, 20"
  })
  void fieldsOfAnOpen(
      int silence, int moves, int changes, int hold, int drives, int watches, int at) {
    ByteBuffer body = ByteBuffer.allocate(21).order(ByteOrder.LITTLE_ENDIAN);
    body.putInt(host.board().boot()).putInt(RawHost.SESSION);
    body.putShort((short) silence).put((byte) moves).putShort((short) changes).putShort((short) 0);
    body.putInt(hold).put((byte) drives).put((byte) watches);

    assertThat(refused(2, OTHER, body.array())).isEqualTo(new Nack(NackReason.BAD_FIELD, 2, 1, at));
    assertThat(host.ask(new Beat(0), Status.class).state()).isEqualTo(FixtureState.READY);
  }

  @Test
  void anOpenForAnotherBootOrSession() {
    Open good = host.usualAfter(RawHost.SESSION);
    Open otherBoot = withBoot(good, good.boot() + 1);

    host.sendAs(OTHER, otherBoot);
    assertThat(host.expect(Nack.class, 0).reason()).isEqualTo(NackReason.WRONG_SESSION);
    host.sendAs(0, good);
    assertThat(host.expect(Nack.class, 0).reason()).isEqualTo(NackReason.WRONG_SESSION);
    host.sendAs(OTHER, good);
    assertThat(host.expect(Status.class, 0).state()).isEqualTo(FixtureState.OPENED);
    host.sendAs(RawHost.SESSION, good);
    assertThat(host.expect(Nack.class, 0).reason())
        .as("held up on its way: it may not end the session after its own")
        .isEqualTo(NackReason.WRONG_SESSION);
  }

  private static Open withBoot(Open open, int boot) {
    return new Open(
        boot,
        open.follows(),
        open.silenceMs(),
        open.chatterMoves(),
        open.chatterChanges(),
        open.moveRestUs(),
        open.holdMs(),
        open.drives(),
        open.watches());
  }

  @Test
  void noSessionAtAllAfterAReset() {
    RawHost fresh = new RawHost(new ScriptedCircuit().bench(2, 2));
    fresh.hello();
    for (int session : new int[] {0, OTHER}) {
      fresh.sendAs(session, new Arm());
      assertThat(fresh.expect(Nack.class, 0).reason()).isEqualTo(NackReason.WRONG_SESSION);
    }
  }

  @Test
  void damageIsCountedAndNeverAnswered() {
    byte[] frame = host.encode(new Beat(0));
    Status before = host.ask(new Beat(0), Status.class);
    int damaged = 0;
    for (int i = 0; i < frame.length - 1; i++) {
      for (int bit = 0; bit < 8; bit++) {
        byte[] bad = frame.clone();
        bad[i] ^= (byte) (1 << bit);
        host.wire.write(bad);
        damaged++;
        // a byte that became zero ends one frame and starts another
        damaged += bad[i] == 0 && i > 0 ? 1 : 0;
      }
    }
    assertThat(host.rest(0)).isEmpty();
    Status after = host.ask(new Beat(0), Status.class);
    assertThat(after.framesDamaged() - before.framesDamaged()).isEqualTo(damaged);
    assertThat(after.framesWhole() - before.framesWhole()).isEqualTo(1);
  }

  @Test
  void onAFixtureThatOnlySourcesADriveAtZeroIsReleased() {
    Step step =
        new Step(
            1,
            false,
            false,
            false,
            1,
            100_000,
            1000,
            0,
            Steps.set(0b01),
            Steps.set(0b10),
            new BitSet(),
            new BitSet(),
            new BitSet());
    host.send(step);

    assertThat(host.ask(new Beat(0), Status.class).on().isEmpty()).isTrue();
  }
}
