package cardproof.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

/** Who may be at the other end of a port instead of a fixture of ours. */
class HostLinkGreetingTest {
  private static final long MS = LinkRig.MS;

  @Test
  void silentPort() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays);
    rig.fixture.mute = true;
    long fromNs = rig.wire.nowNs();
    assertThatThrownBy(rig::connected)
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("virtual wire: nothing answered within 1000 ms");
    assertThat(rig.wire.nowNs() - fromNs).isEqualTo(1000 * MS);
  }

  @Test
  void slowStarterNeedsPatience() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays);
    rig.fixture.mute = true;
    assertThatThrownBy(rig::connected).isInstanceOf(LinkException.class);
    rig.wire.pass(500 * MS);
    rig.fixture.mute = false;
    assertThat(HostLink.connect(rig.wire, new Random(1), 30).hello().slots()).isEqualTo(4);
  }

  @Test
  void otherMajorVersion() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays);
    rig.fixture.major = 2;
    assertThatThrownBy(rig::connected)
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("speaks protocol 2.0")
        .hasMessageContaining("protocol 1.x");
  }

  /** A receiver that prints its position all day, with and without zeros in it. */
  @Test
  void garbage() {
    assertForeign(line -> new Babbler(line, "$GPGGA,123519,4807.038,N\r\n".getBytes()));
    assertForeign(line -> new Babbler(line, new byte[] {1, 2, 0, 3, 0, 0, 9, 9, 9, 0}));
  }

  /** What is sent comes straight back: a loop-back plug, or a board that echoes. */
  @Test
  void echo() {
    assertForeign(Echo::new);
  }

  @Test
  void framesTooShortForTheChannels() {
    LinkRig rig = LinkRig.quiet(4, LinkRig::relays);
    LinkRig small = new LinkRig(1, 4, 64, LinkRig::relays);
    assertThat(small.connected().link.hello().longestFrame()).isEqualTo(64);
    rig.fixture.longestTold = 30;
    assertThatThrownBy(rig::connected)
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("no frame longer than 30 bytes")
        .hasMessageContaining("room for 35 bytes");
  }

  private static void assertForeign(Function<Strand, VirtualWire.Device> device) {
    VirtualWire wire = new VirtualWire(5, device);
    long fromNs = wire.nowNs();
    assertThatThrownBy(() -> HostLink.connect(wire, new Random(5)))
        .isInstanceOf(LinkException.class)
        .hasMessageContaining("no answer to HELLO was among them");
    assertThat(wire.nowNs() - fromNs).isLessThanOrEqualTo(1001 * MS);
  }

  private static final class Babbler implements VirtualWire.Device {
    private final Strand line;
    private final byte[] text;
    private long dueNs;

    Babbler(Strand line, byte[] text) {
      this.line = line;
      this.text = text;
    }

    @Override
    public void receive(byte[] bytes, long nowNs) {
      // it does not listen
    }

    @Override
    public long nextNs() {
      return dueNs;
    }

    @Override
    public void tick(long nowNs) {
      line.write(text, nowNs);
      dueNs = nowNs + 7 * MS;
    }
  }

  private record Echo(Strand line) implements VirtualWire.Device {
    @Override
    public void receive(byte[] bytes, long nowNs) {
      line.write(bytes, nowNs);
    }

    @Override
    public long nextNs() {
      return Long.MAX_VALUE;
    }

    @Override
    public void tick(long nowNs) {
      throw new AssertionError("nothing is due");
    }
  }
}
