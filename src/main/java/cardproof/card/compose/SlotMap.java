package cardproof.card.compose;

import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.CardScope;
import cardproof.card.State;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Where everything that the cards' expressions name has its place in the whole: buses that leave
 * it, then what is inside, then states.
 */
final class SlotMap {
  private static final int NONE = -1;

  private final CardScope scope;
  private final int[] joint;
  private final int[] kept;
  private final Map<MemberBus, Integer> own = new HashMap<>();
  private final int[][] moved;

  /**
   * @param outer by joint: the bus by which it leaves, or -1
   * @param cut joints at which a circle is cut: each is a state
   */
  SlotMap(List<Member> members, Drives drives, List<Bus> buses, int[] outer, Set<Integer> cut) {
    Joints joints = drives.joints();
    this.scope = new CardScope(buses);
    this.joint = outer.clone();
    this.kept = new int[joints.count()];
    Arrays.fill(kept, NONE);
    this.moved = new int[members.size()][];
    for (int j = 0; j < joint.length; j++) {
      if (joint[j] == NONE && !cut.contains(j)) {
        joint[j] = scope.addInner(joints.name(j), joints.width(j));
      }
      for (MemberBus driver : drives.several(j)) {
        own.put(driver, scope.addInner(driver.name(members) + ".own", joints.width(j)));
      }
    }
    for (int m = 0; m < moved.length; m++) {
      Member member = members.get(m);
      moved[m] = new int[member.card().scope().size()];
      int[] to = moved[m];
      member.card().behaviour().ifPresent(behaviour -> inside(behaviour, member, to));
    }
    for (int m = 0; m < moved.length; m++) {
      Member member = members.get(m);
      int[] to = moved[m];
      member.card().behaviour().ifPresent(behaviour -> states(behaviour, member, to));
    }
    for (int j : cut.stream().sorted().toList()) {
      kept[j] = scope.addState(joints.name(j), joints.width(j));
      joint[j] = joint[j] == NONE ? kept[j] : joint[j];
    }
    for (int m = 0; m < moved.length; m++) {
      for (int b = 0; b < members.get(m).card().buses().size(); b++) {
        moved[m][b] = joint[joints.of(new MemberBus(m, b))];
      }
    }
  }

  private void inside(Behaviour behaviour, Member member, int[] to) {
    for (int s = member.card().buses().size(); s < behaviour.firstStateSlot(); s++) {
      String name = member.own(behaviour.scope().nameOf(s));
      to[s] = scope.addInner(name, behaviour.scope().widthOf(s));
    }
  }

  private void states(Behaviour behaviour, Member member, int[] to) {
    int slot = behaviour.firstStateSlot();
    for (State state : behaviour.states()) {
      to[slot++] = scope.addState(member.own(state.name()), state.width());
    }
  }

  CardScope scope() {
    return scope;
  }

  /** The slot under which the word on a joint is read. */
  int ofJoint(int index) {
    return joint[index];
  }

  /** The slot of the state at which a circle through a joint is cut. */
  int kept(int index) {
    return kept[index];
  }

  /** What one of several cards that drive a joint puts there. */
  int own(MemberBus driver) {
    return own.get(driver);
  }

  /** Where something of a card's scope is now. */
  int moved(int member, int slot) {
    return moved[member][slot];
  }
}
