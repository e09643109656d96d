package cardproof.card.compose;

import cardproof.card.Behaviour;
import cardproof.card.Role;
import java.util.List;
import java.util.Optional;

/** Which cards drive a joint, and whether it is known what they put there. */
record Drives(List<Member> members, Joints joints) {
  /** The cards' buses of which a behaviour says what is put on the joint. */
  List<MemberBus> said(int joint) {
    return joints.drivers(joint).stream().filter(this::isSaid).toList();
  }

  /** The same where it takes more than one to know; else none. */
  List<MemberBus> several(int joint) {
    List<MemberBus> said = said(joint);
    return said.size() > 1 && !isOpen(joint) ? said : List.of();
  }

  /** Whether an output of which nothing is said drives the joint. */
  boolean isOpen(int joint) {
    return joints.drivers(joint).stream()
        .anyMatch(bus -> bus.in(members).role() == Role.OUTPUT && !isSaid(bus));
  }

  private boolean isSaid(MemberBus bus) {
    Optional<Behaviour> behaviour = members.get(bus.member()).card().behaviour();
    return behaviour.isPresent() && behaviour.get().predicts(bus.busIndex());
  }
}
