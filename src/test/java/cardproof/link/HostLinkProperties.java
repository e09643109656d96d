package cardproof.link;

import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.From;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;

class HostLinkProperties {
  /** One after another on one line, in any order, each as often as it comes. */
  @Property(tries = 200)
  void exactlyOnce(
      @ForAll long seed,
      @ForAll @IntRange(min = 2, max = 20) int slots,
      @ForAll @Size(min = 1, max = 6) List<@From("mishaps") String> mishaps) {
    LinkRig rig = new LinkRig(seed, slots, 256, LinkRig::relays);
    rig.faults("link: " + String.join(", ", mishaps));
    rig.armed();
    rig.runTo(200);
    rig.assertExactlyOnce(200);
  }

  @Provide
  Arbitrary<String> mishaps() {
    return Arbitraries.of(
        "lose 4 %",
        "lose bytes 4 %",
        "flip 4 %",
        "repeat 10 %",
        "reorder 30 % within 200 ms",
        "garbage 4 %",
        "delay 16 ms",
        "delay 1 ms to 16 ms",
        "speed 115200 baud",
        "speed 38400 baud",
        "cut every 3 s for 200 ms",
        "stall every 3 s for 300 ms");
  }
}
