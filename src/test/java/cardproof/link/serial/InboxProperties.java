package cardproof.link.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import cardproof.link.LinkException;
import java.io.ByteArrayOutputStream;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class InboxProperties {
  private final Health health = new Health();

  @Property
  void givesOutWhatWasPutInWhateverTheSizes(
      @ForAll @IntRange(min = 1, max = 40) int capacity,
      @ForAll @Size(max = 60) List<@IntRange(min = 0, max = 50) Integer> sizes,
      @ForAll long seed) {
    Inbox inbox = new Inbox(capacity, () -> 0, health);
    Random random = new Random(seed);
    ByteArrayOutputStream in = new ByteArrayOutputStream();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    for (int size : sizes) {
      byte[] some = new byte[size];
      random.nextBytes(some);
      in.write(some, 0, inbox.put(some, 0, size, 0));
      take(inbox, new byte[1 + random.nextInt(50)], out);
    }
    take(inbox, new byte[capacity], out);
    assertThat(out.toByteArray()).isEqualTo(in.toByteArray());
  }

  @Property(tries = 20)
  void whatCameBeforeAFailureIsStillRead(@ForAll @IntRange(min = 1, max = 40) int size) {
    Inbox inbox = new Inbox(40, () -> 0, health);
    inbox.put(new byte[size], 0, size, 0);
    health.fail(new PortProblems("p").lost("tried"));
    assertThat(inbox.take(new byte[64], 0)).isEqualTo(size);
    assertThatThrownBy(() -> inbox.take(new byte[64], 0)).isInstanceOf(LinkException.class);
  }

  private static void take(Inbox inbox, byte[] into, ByteArrayOutputStream out) {
    out.write(into, 0, inbox.take(into, 0));
  }
}
