package cardproof.link;

import cardproof.link.NoisyLine.Noise;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;

class HostLinkProperties {
  @Property(tries = 100)
  void exactlyOnce(
      @ForAll long seed,
      @ForAll @IntRange(min = 2, max = 20) int slots,
      @ForAll @DoubleRange(max = 0.05) double lost,
      @ForAll @DoubleRange(max = 0.05) double repeated,
      @ForAll @DoubleRange(max = 0.05) double damaged,
      @ForAll @DoubleRange(max = 0.3) double delayed) {
    LinkRig rig = new LinkRig(seed, slots, 256, LinkRig::relays);
    rig.noise(new Noise(lost, repeated, damaged, delayed, 200));
    rig.armed();
    rig.runTo(200);
    rig.assertExactlyOnce(200);
  }
}
