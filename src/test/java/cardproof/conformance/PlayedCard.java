package cardproof.conformance;

import cardproof.sim.PinSide;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** Plays a {@link CardScript} at the pins of a fixture. */
final class PlayedCard implements PinSide {
  private static final long NS_PER_US = 1000;

  private record Flip(long atNs, int watch, boolean level, Object rule) {}

  private final CardScript script;
  private final BitSet drives = new BitSet();
  private final BitSet levels = new BitSet();
  private final List<Flip> due = new ArrayList<>();
  private long nowNs;

  PlayedCard(CardScript script) {
    this.script = script;
    script.constants().forEach(rule -> levels.set(rule.watch()));
    script.follows().stream()
        .filter(CardScript.Follow::inverted)
        .forEach(rule -> levels.set(rule.watch()));
  }

  @Override
  public synchronized void drive(long atNs, BitSet now) {
    advance(atNs);
    for (CardScript.Follow rule : script.follows()) {
      if (now.get(rule.drive()) != drives.get(rule.drive())) {
        follow(rule, atNs, now.get(rule.drive()));
      }
    }
    for (CardScript.Oscillate rule : script.oscillates()) {
      if (now.get(rule.drive()) != drives.get(rule.drive())) {
        drop(rule);
        long atFirst = now.get(rule.drive()) ? atNs + rule.everyUs() * NS_PER_US : atNs + 1;
        due.add(new Flip(atFirst, rule.watch(), now.get(rule.drive()), rule));
      }
    }
    drives.clear();
    drives.or(now);
  }

  private void follow(CardScript.Follow rule, long atNs, boolean on) {
    boolean target = on != rule.inverted();
    drop(rule);
    if (levels.get(rule.watch()) == target) {
      return;
    }
    long firstNs = atNs + (on ? rule.afterUs() : rule.releaseUs()) * NS_PER_US;
    for (int i = 0; i <= 2 * rule.bounces(); i++) {
      long flipNs = firstNs + i * rule.bounceUs() * NS_PER_US;
      due.add(new Flip(flipNs, rule.watch(), target == (i % 2 == 0), rule));
    }
  }

  private void drop(Object rule) {
    due.removeIf(flip -> flip.rule == rule);
  }

  @Override
  public synchronized void advance(long toNs) {
    while (nextNs() <= toNs) {
      long atNs = nextNs();
      Flip flip = due.stream().filter(other -> other.atNs == atNs).findFirst().orElseThrow();
      due.remove(flip);
      levels.set(flip.watch, flip.level);
      if (flip.rule instanceof CardScript.Oscillate rule && drives.get(rule.drive())) {
        long againNs = atNs + rule.everyUs() * NS_PER_US;
        due.add(new Flip(againNs, flip.watch, !flip.level, rule));
      }
    }
    nowNs = Math.max(nowNs, toNs);
  }

  @Override
  public synchronized long nextNs() {
    return due.stream().mapToLong(Flip::atNs).min().orElse(Long.MAX_VALUE);
  }

  @Override
  public synchronized BitSet watches() {
    return (BitSet) levels.clone();
  }
}
