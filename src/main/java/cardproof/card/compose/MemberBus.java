package cardproof.card.compose;

import cardproof.card.Bus;
import java.util.List;

/**
 * A bus of one of the cards.
 *
 * @param member position of the card among the members
 * @param busIndex position of the bus in its card
 */
public record MemberBus(int member, int busIndex) {
  Bus in(List<Member> members) {
    return members.get(member).card().buses().get(busIndex);
  }

  /** The name that it has in the whole: {@code keep.Q}. */
  public String name(List<Member> members) {
    return members.get(member).own(in(members).name());
  }
}
