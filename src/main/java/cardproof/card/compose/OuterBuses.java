package cardproof.card.compose;

import cardproof.card.Bus;
import cardproof.card.Pin;
import cardproof.card.Role;
import cardproof.card.Sharing;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The buses by which a whole of several cards is driven and watched. What two of the cards have
 * alike, names of connectors and labels, gets the card's name before it.
 */
final class OuterBuses {
  private final List<Member> members;
  private final Joints joints;
  private final Set<String> manyConnectors;

  OuterBuses(List<Member> members, Joints joints) {
    this.members = members;
    this.joints = joints;
    this.manyConnectors = inSeveral(members);
  }

  private static Set<String> inSeveral(List<Member> members) {
    Set<String> seen = new HashSet<>();
    Set<String> again = new HashSet<>();
    for (Member member : members) {
      member.card().lines().stream()
          .map(line -> line.pin().connector())
          .distinct()
          .filter(connector -> !seen.add(connector))
          .forEach(again::add);
    }
    return again;
  }

  List<Bus> of(List<Leaving> leaving) {
    List<Bus> plain =
        leaving.stream().map(one -> bus(one, one.bus().in(members).labels())).toList();
    Map<String, Integer> words = new HashMap<>();
    plain.forEach(bus -> words(bus).forEach(word -> words.merge(word, 1, Integer::sum)));
    List<Bus> apart = new ArrayList<>();
    for (int i = 0; i < plain.size(); i++) {
      List<String> labels = plain.get(i).labels();
      boolean clash = labels.stream().anyMatch(label -> words.get(label) > 1);
      Member member = members.get(leaving.get(i).bus().member());
      apart.add(
          clash ? bus(leaving.get(i), labels.stream().map(member::own).toList()) : plain.get(i));
    }
    return apart;
  }

  /** What a bus and its lines are called, each once. */
  private static Set<String> words(Bus bus) {
    Set<String> words = new HashSet<>(bus.labels());
    words.add(bus.name());
    for (int bit = 0; bit < bus.width(); bit++) {
      words.add(bus.lineName(bit));
    }
    return words;
  }

  private Bus bus(Leaving leaving, List<String> labels) {
    Bus inner = leaving.bus().in(members);
    Member member = members.get(leaving.bus().member());
    List<Pin> pins = inner.pins().stream().map(pin -> outside(pin, member)).toList();
    return new Bus(
        leaving.name(),
        inner.role(),
        inner.width(),
        pins,
        labels,
        sharing(leaving),
        inner.rackMilliamps(),
        leaving.at());
  }

  private Pin outside(Pin pin, Member member) {
    return manyConnectors.contains(pin.connector())
        ? new Pin(member.own(pin.connector()), pin.number())
        : pin;
  }

  /** One card that shares its bus with nobody is enough for that. */
  private Sharing sharing(Leaving leaving) {
    Set<Sharing> all =
        joints.buses(joints.of(leaving.bus())).stream()
            .map(bus -> bus.in(members))
            .filter(bus -> bus.role() == Role.SHARED)
            .map(Bus::sharing)
            .collect(Collectors.toSet());
    return all.contains(Sharing.EXCLUSIVE) ? Sharing.EXCLUSIVE : Sharing.WIRED_OR;
  }
}
