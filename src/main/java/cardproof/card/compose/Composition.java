package cardproof.card.compose;

import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Limits;
import cardproof.card.RelayFigures;
import cardproof.card.Role;
import cardproof.card.Supply;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * Cards joined by cables, as one unit with the buses that leave it. Any number of cards may share a
 * bus; what several drive at once reads as the OR of it.
 *
 * <p>What the cards keep is found under their names, {@code keep.R}, and so are their parts and
 * nets. What comes out shares nothing that changes with the cards that went in. Not thread safe.
 */
public final class Composition {
  private static final int NONE = -1;

  private final List<Member> members;
  private final List<Cable> cables;
  private final List<Leaving> leaving;
  private final Joints joints;
  private final List<Bus> buses;
  private final Optional<Behaviour> behaviour;
  private final List<Circle> circles;

  /**
   * @param leaving at most one for all buses that are joined with one another; in the order of the
   *     whole's lines
   * @throws IllegalArgumentException where cables or buses that leave do not go together
   */
  public Composition(List<Member> members, List<Cable> cables, List<Leaving> leaving) {
    this.members = List.copyOf(members);
    this.cables = List.copyOf(cables);
    this.leaving = List.copyOf(leaving);
    cables.forEach(this::check);
    this.joints = new Joints(this.members, this.cables);
    int[] outer = new int[joints.count()];
    Arrays.fill(outer, NONE);
    for (int b = 0; b < leaving.size(); b++) {
      int joint = joints.of(leaving.get(b).bus());
      if (outer[joint] != NONE) {
        throw new IllegalArgumentException(leaving.get(b).name() + " leaves a second time");
      }
      outer[joint] = b;
    }
    this.buses = new OuterBuses(this.members, joints).of(this.leaving);
    ComposedBehaviour composed = new ComposedBehaviour(this.members, joints, buses, outer);
    this.behaviour = composed.behaviour(this.cables);
    this.circles = List.copyOf(composed.circles());
  }

  private void check(Cable cable) {
    Bus from = cable.from().in(members);
    Bus to = cable.to().in(members);
    boolean fits = from.width() == to.width() && cable.cores().size() == to.width();
    if (!fits || from.role() == Role.INPUT || to.role() == Role.OUTPUT) {
      throw new IllegalArgumentException("cable from " + from.name() + " to " + to.name());
    }
  }

  /** Circles that the cables close and nothing on them holds. */
  public List<Circle> circles() {
    return circles;
  }

  /** Inputs that nothing drives: neither a cable goes there, nor do they leave. */
  public List<MemberBus> released() {
    return IntStream.range(0, joints.count())
        .filter(j -> joints.drivers(j).isEmpty())
        .filter(j -> leaving.stream().noneMatch(one -> joints.of(one.bus()) == j))
        .mapToObj(j -> joints.buses(j).get(0))
        .toList();
  }

  /**
   * The slowest figures of all the cards, and every stage that is unseen on one of them: what
   * leaves one card may go on through all the others before a line shows it.
   */
  public static RelayFigures relays(List<Member> members) {
    List<RelayFigures> all = members.stream().map(member -> member.card().relays()).toList();
    return new RelayFigures(
        all.stream().mapToInt(RelayFigures::unseenStages).sum(),
        all.stream().mapToLong(RelayFigures::operateUs).max().orElseThrow(),
        all.stream().mapToLong(RelayFigures::releaseUs).max().orElseThrow(),
        all.stream().mapToLong(RelayFigures::bounceUs).max().orElseThrow());
  }

  /** The whole, wired where all of its cards are. */
  public Card card(
      String name, String title, Supply supply, Limits limits, RelayFigures relays, Position at) {
    Card card = new Card(name, title, supply, buses, behaviour.orElse(null), limits, relays, at);
    return wiring(at).map(card::withWiring).orElse(card);
  }

  /** What is soldered on all of the cards and between them; empty where it is not known of one. */
  public Optional<Wiring> wiring(Position at) {
    return ComposedWiring.of(members, cables, leaving, at);
  }

  /** What leaves the whole, in the order of its lines. */
  public List<Bus> buses() {
    return buses;
  }
}
