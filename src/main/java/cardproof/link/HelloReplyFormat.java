package cardproof.link;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * HELLO_R.
 *
 * <pre>
 *   0             4       5       6          9       10     14         22       23        24
 *   +-------------+-------+-------+----------+-------+------+----------+--------+---------+--
 *   | B  E  N  C  | major | minor | firmware | reset | boot | board id | drives | watches |
 *   +-------------+-------+-------+----------+-------+------+----------+--------+---------+--
 *   24      25        27          31      33             37  38       38+n      42+n
 *   +-------+---------+-----------+-------+--------------+---+--------+---------+
 *   | slots | longest | period ns | blind | capabilities | n | name   | session |
 *   +-------+---------+-----------+-------+--------------+---+--------+---------+
 *
 *   from version 1.1 on:
 *   42+n           43+n         45+n
 *   +--------------+------------+
 *   | most entries | most edges |
 *   +--------------+------------+
 * </pre>
 *
 * <p>Of a reply with another major version only the two version numbers are read: nothing is known
 * of how the rest is laid out.
 */
final class HelloReplyFormat implements Format<HelloReply> {
  /** {@code BENC}, read as a little-endian number. */
  private static final int LETTERS = 0x434E_4542;

  private static final Pattern FIRMWARE = Pattern.compile("(\\d{1,3})\\.(\\d{1,3})\\.(\\d{1,3})");
  private static final int LONGEST_NAME = 31;

  private static final int MAGIC = 0;
  private static final int MAJOR = 4;
  private static final int MINOR = 5;
  private static final int VERSIONS_END = 6;
  private static final int FIRMWARE_VERSION = 6;
  private static final int RESET_CAUSE = 9;
  private static final int BOOT = 10;
  private static final int BOARD_ID = 14;
  private static final int DRIVES = 22;
  private static final int WATCHES = 23;
  private static final int SLOTS = 24;
  private static final int LONGEST_FRAME = 25;
  private static final int PERIOD = 27;
  private static final int BLIND = 31;
  private static final int CAPABILITIES = 33;
  private static final int NAME_LENGTH = 37;
  private static final int NAME = 38;
  private static final int SESSION_LENGTH = 4;
  private static final int MOST_ENTRIES_LENGTH = 1;
  private static final int MOST_EDGES_LENGTH = 2;

  @Override
  public int length(HelloReply reply) {
    return NAME + reply.board().length() + SESSION_LENGTH + additions(reply.minor());
  }

  @Override
  public int length(Body body) {
    if (body.length() >= VERSIONS_END && body.u8(MAJOR) != Protocol.MAJOR) {
      return VERSIONS_END;
    }
    int minor = body.length() > MINOR ? body.u8(MINOR) : 0;
    int name = body.length() > NAME_LENGTH ? body.u8(NAME_LENGTH) : 0;
    return NAME + SESSION_LENGTH + name + additions(minor);
  }

  private static int additions(int minor) {
    return minor >= Protocol.MINOR_OF_ADDITIONS ? MOST_ENTRIES_LENGTH + MOST_EDGES_LENGTH : 0;
  }

  @Override
  public void put(HelloReply reply, Body body) {
    byte[] name = name(reply.board());
    body.putI32(MAGIC, LETTERS);
    body.putU8(MAJOR, reply.major());
    body.putU8(MINOR, reply.minor());
    putFirmware(reply.firmware(), body);
    body.putU8(RESET_CAUSE, reply.resetCause());
    body.putI32(BOOT, reply.boot());
    body.putI64(BOARD_ID, reply.boardId());
    body.putU8(DRIVES, reply.drives());
    body.putU8(WATCHES, reply.watches());
    body.putU8(SLOTS, reply.slots());
    body.putU16(LONGEST_FRAME, reply.longestFrame());
    body.putU32(PERIOD, reply.periodNs());
    body.putU16(BLIND, reply.blindUs());
    body.putI32(CAPABILITIES, reply.capabilities());
    body.putU8(NAME_LENGTH, name.length);
    for (int i = 0; i < name.length; i++) {
      body.putU8(NAME + i, name[i]);
    }
    int end = NAME + name.length;
    body.putI32(end, reply.session());
    if (additions(reply.minor()) > 0) {
      body.putU8(end + SESSION_LENGTH, reply.mostEntries());
      body.putU16(end + SESSION_LENGTH + MOST_ENTRIES_LENGTH, reply.mostEdges());
    }
  }

  @Override
  public HelloReply get(Body body) {
    int major = body.u8(MAJOR);
    int minor = body.u8(MINOR);
    if (body.i32(MAGIC) != LETTERS) {
      return HelloReply.versionOnly(-1, minor);
    }
    if (major != Protocol.MAJOR) {
      return HelloReply.versionOnly(major, minor);
    }
    int nameLength = body.u8(NAME_LENGTH);
    int addedAt = NAME + nameLength + SESSION_LENGTH;
    boolean added = additions(minor) > 0;
    return new HelloReply(
        major,
        minor,
        firmware(body),
        body.u8(RESET_CAUSE),
        body.i32(BOOT),
        body.i64(BOARD_ID),
        body.u8(DRIVES),
        body.u8(WATCHES),
        body.u8(SLOTS),
        body.u16(LONGEST_FRAME),
        body.u32(PERIOD),
        body.u16(BLIND),
        body.i32(CAPABILITIES),
        body.ascii(NAME, nameLength),
        body.i32(NAME + nameLength),
        added ? body.u8(addedAt) : 0,
        added ? body.u16(addedAt + MOST_ENTRIES_LENGTH) : 0);
  }

  @Override
  public int badField(HelloReply reply) {
    if (reply.major() < 0) {
      return MAGIC;
    } else if (reply.major() != Protocol.MAJOR) {
      return NO_FIELD;
    } else if (reply.drives() < 1) {
      return DRIVES;
    } else if (reply.watches() < 1) {
      return WATCHES;
    } else if (reply.slots() < Protocol.FEWEST_SLOTS) {
      return SLOTS;
    } else if (reply.board().length() > LONGEST_NAME) {
      return NAME_LENGTH;
    }
    return isPrintable(reply.board()) ? NO_FIELD : NAME;
  }

  private static byte[] name(String board) {
    if (board.length() > LONGEST_NAME || !isPrintable(board)) {
      throw new IllegalArgumentException("board name '" + board + "'");
    }
    return board.getBytes(US_ASCII);
  }

  private static boolean isPrintable(String name) {
    return name.chars().allMatch(letter -> letter >= ' ' && letter <= '~');
  }

  private static void putFirmware(String version, Body body) {
    Matcher parts = FIRMWARE.matcher(version);
    if (!parts.matches()) {
      throw new IllegalArgumentException("firmware version '" + version + "', not like 1.0.0");
    }
    for (int i = 0; i < 3; i++) {
      body.putU8(FIRMWARE_VERSION + i, Integer.parseInt(parts.group(i + 1)));
    }
  }

  private static String firmware(Body body) {
    return body.u8(FIRMWARE_VERSION)
        + "."
        + body.u8(FIRMWARE_VERSION + 1)
        + "."
        + body.u8(FIRMWARE_VERSION + 2);
  }
}
