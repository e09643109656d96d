package cardproof.card.compose;

import cardproof.card.Role;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;

/**
 * Which buses are one: those that cables join, and every other by itself. A joint is numbered by
 * the first of its buses, cards and buses taken in order.
 */
final class Joints {
  private final List<Member> members;
  private final int[] first;
  private final int[] joint;
  private final List<List<MemberBus>> buses = new ArrayList<>();

  Joints(List<Member> members, List<Cable> cables) {
    this.members = members;
    this.first = new int[members.size() + 1];
    for (int m = 0; m < members.size(); m++) {
      first[m + 1] = first[m] + members.get(m).card().buses().size();
    }
    int[] leader = new int[first[members.size()]];
    Arrays.setAll(leader, bus -> bus);
    for (Cable cable : cables) {
      int one = lead(leader, index(cable.from()));
      int other = lead(leader, index(cable.to()));
      leader[Math.max(one, other)] = Math.min(one, other);
    }
    this.joint = new int[leader.length];
    TreeMap<Integer, Integer> numbers = new TreeMap<>();
    for (int m = 0; m < members.size(); m++) {
      for (int b = first[m]; b < first[m + 1]; b++) {
        joint[b] = numbers.computeIfAbsent(lead(leader, b), fresh -> numbers.size());
        if (joint[b] == buses.size()) {
          buses.add(new ArrayList<>());
        }
        buses.get(joint[b]).add(new MemberBus(m, b - first[m]));
      }
    }
  }

  private int index(MemberBus bus) {
    return first[bus.member()] + bus.busIndex();
  }

  private static int lead(int[] leader, int bus) {
    int found = bus;
    while (leader[found] != found) {
      found = leader[found];
    }
    return found;
  }

  int count() {
    return buses.size();
  }

  int of(MemberBus bus) {
    return joint[index(bus)];
  }

  /** The buses of a joint, in order. */
  List<MemberBus> buses(int joint) {
    return buses.get(joint);
  }

  int width(int joint) {
    return buses.get(joint).get(0).in(members).width();
  }

  /** Those of its buses by which a card drives it. */
  List<MemberBus> drivers(int joint) {
    return buses.get(joint).stream().filter(bus -> bus.in(members).role().watched()).toList();
  }

  /** The name of the bus that drives it, outputs first, or else of any. */
  String name(int joint) {
    List<MemberBus> all = buses.get(joint);
    return all.stream()
        .filter(bus -> bus.in(members).role() == Role.OUTPUT)
        .findFirst()
        .or(() -> drivers(joint).stream().findFirst())
        .orElse(all.get(0))
        .name(members);
  }
}
