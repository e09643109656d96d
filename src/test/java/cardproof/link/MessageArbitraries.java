package cardproof.link;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;

/** Messages of every type with any values that are in range, for a fixture of a given size. */
final class MessageArbitraries {
  private final int drives;
  private final int watches;
  private final Random random;

  private MessageArbitraries(int drives, int watches, Random random) {
    this.drives = drives;
    this.watches = watches;
    this.random = random;
  }

  /** A fixture's size and frames for it. */
  record Traffic(int drives, int watches, List<Frame> frames) {}

  static Arbitrary<Traffic> traffic(int mostFrames) {
    return Arbitraries.integers()
        .between(1, 255)
        .tuple4()
        .flatMap(
            sizes ->
                Arbitraries.randomValue(
                    random -> traffic(sizes.get1(), sizes.get2(), random, mostFrames)));
  }

  private static Traffic traffic(int drives, int watches, Random random, int mostFrames) {
    MessageArbitraries make = new MessageArbitraries(drives, watches, random);
    List<Frame> frames = new ArrayList<>();
    int count = 1 + random.nextInt(mostFrames);
    for (int i = 0; i < count; i++) {
      frames.add(new Frame(random.nextInt(), make.message()));
    }
    return new Traffic(drives, watches, frames);
  }

  private Message message() {
    return switch (random.nextInt(19)) {
      case 0 -> new Hello(u8(), u8());
      case 1 -> helloReply();
      case 2 -> open();
      case 3 -> new Arm();
      case 4 -> new Stop();
      case 5 -> new Resume(random.nextInt());
      case 6 -> step();
      case 7 -> new Beat(random.nextInt());
      case 8 -> new Read(random.nextInt());
      case 9 -> status();
      case 10 -> result();
      case 11 -> new Sequence(step(), entries());
      case 12 -> new ReadEdges(random.nextInt(), u16());
      case 13 -> edges();
      case 14 -> new Supply(random.nextBoolean());
      case 15 -> new SupplyReply(random.nextBoolean());
      case 16 -> new ReadSense();
      case 17 -> new Sense(u16(), u16());
      default -> new Nack(code(NackReason.values(), 1, 9), u8(), random.nextInt(), u16());
    };
  }

  private HelloReply helloReply() {
    String name =
        random
            .ints(random.nextInt(32), ' ', '~' + 1)
            .mapToObj(letter -> String.valueOf((char) letter))
            .collect(Collectors.joining());
    int minor = u8();
    return new HelloReply(
        Protocol.MAJOR,
        minor,
        u8() + "." + u8() + "." + u8(),
        u8(),
        random.nextInt(),
        random.nextLong(),
        1 + random.nextInt(255),
        1 + random.nextInt(255),
        2 + random.nextInt(254),
        u16(),
        u32(),
        u16(),
        random.nextInt(),
        name,
        random.nextInt(),
        minor == 0 ? 0 : u8(),
        minor == 0 ? 0 : u16());
  }

  private List<Switching> entries() {
    int most = Sequence.mostEntries(drives, watches, Protocol.LONGEST_FRAME);
    return random
        .longs(random.nextInt(most + 1))
        .mapToObj(any -> new Switching(u32(), set(drives), set(drives)))
        .toList();
  }

  private Edges edges() {
    int here = random.nextInt(Edges.mostInFrame(Protocol.LONGEST_FRAME) + 1);
    int first = random.nextInt(1000);
    int kept = first + here + random.nextInt(3);
    int most = Math.min(watches, Edges.MOST_WATCHES);
    List<Edge> edges =
        random
            .ints(here, 0, most)
            .mapToObj(watch -> new Edge(u32(), watch, random.nextBoolean()))
            .toList();
    return new Edges(random.nextInt(), kept, u16(), first, edges);
  }

  private Open open() {
    return new Open(
        random.nextInt(),
        random.nextInt(),
        100 + random.nextInt(9901),
        2 + random.nextInt(254),
        16 + random.nextInt(65520),
        u16(),
        1 + random.nextInt(Integer.MAX_VALUE),
        set(drives),
        set(watches));
  }

  private Step step() {
    return new Step(
        random.nextInt(),
        random.nextBoolean(),
        random.nextBoolean(),
        random.nextBoolean(),
        random.nextBoolean(),
        u32(),
        u32(),
        u32(),
        u32(),
        set(drives),
        set(drives),
        set(watches),
        set(watches),
        set(watches));
  }

  private Status status() {
    int acked = random.nextInt(Integer.MAX_VALUE);
    int finished = acked + random.nextInt(4);
    return new Status(
        code(FixtureState.values(), 0, 6),
        code(DropCause.values(), 0, 7),
        random.nextBoolean() ? Protocol.NO_WATCH : random.nextInt(watches),
        random.nextInt(),
        finished + random.nextInt(4),
        finished,
        acked,
        random.nextLong(),
        u32(),
        u32(),
        set(drives),
        set(watches),
        set(watches));
  }

  /** A part of a result that fits a frame. */
  private Result result() {
    BitSet lines = set(watches);
    List<MovedWatch> moved =
        lines.stream()
            .limit(20)
            .mapToObj(watch -> new MovedWatch(watch, u32(), u32(), u16(), u8()))
            .toList();
    int more = watches - moved.size();
    int first = random.nextInt(more + 1);
    return new Result(
        random.nextInt(),
        random.nextInt(),
        u16(),
        random.nextLong(),
        u32(),
        u16(),
        u32(),
        u16(),
        set(watches),
        set(watches),
        set(watches),
        set(watches),
        set(watches),
        set(watches),
        first + moved.size(),
        first,
        moved);
  }

  private BitSet set(int channels) {
    BitSet set = new BitSet();
    if (random.nextInt(8) > 0) {
      for (int i = 0; i < channels; i++) {
        set.set(i, random.nextBoolean());
      }
    }
    return set;
  }

  private <T> T code(T[] values, int from, int to) {
    return values[from + random.nextInt(to - from)];
  }

  private int u8() {
    return random.nextInt(4) == 0 ? 0 : random.nextInt(256);
  }

  private int u16() {
    return random.nextInt(4) == 0 ? 0 : random.nextInt(65536);
  }

  private long u32() {
    return random.nextInt(4) == 0 ? random.nextInt(3) : random.nextInt() & 0xFFFF_FFFFL;
  }
}
