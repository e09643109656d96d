package cardproof.card.compose;

import cardproof.bits.Expression;
import cardproof.bits.Literal;
import cardproof.card.Behaviour;
import cardproof.card.Bus;
import cardproof.card.OutputLoopException;
import cardproof.card.Role;
import cardproof.card.State;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * What several joined cards do: each card's own expressions, reading what now drives its buses. A
 * bus that is joined or left open inside is computed like an output, and no line shows it.
 *
 * <p>Where cables close a circle with no state in it, one is put there that starts unknown: relays
 * are level sensitive and take their time, so that a circle either holds what it holds or runs for
 * ever. What comes of it is then not predicted unless the drives force it, and a simulation finds
 * out.
 */
final class ComposedBehaviour {
  private final List<Member> members;
  private final Joints joints;
  private final Drives drives;
  private final List<Bus> buses;
  private final int[] outer;
  private final Set<Integer> cut = new TreeSet<>();
  private final List<Circle> circles = new ArrayList<>();

  /**
   * @param buses that leave the whole
   * @param outer by joint: the position of the bus by which it leaves, or -1
   */
  ComposedBehaviour(List<Member> members, Joints joints, List<Bus> buses, int[] outer) {
    this.members = members;
    this.joints = joints;
    this.drives = new Drives(members, joints);
    this.buses = buses;
    this.outer = outer;
  }

  /** The circles found, once the behaviour is made. */
  List<Circle> circles() {
    return circles;
  }

  /** Empty where no card says what it does. */
  Optional<Behaviour> behaviour(List<Cable> cables) {
    if (members.stream().allMatch(member -> member.card().behaviour().isEmpty())) {
      return Optional.empty();
    }
    while (true) {
      SlotMap slots = new SlotMap(members, drives, buses, outer, cut);
      try {
        return Optional.of(behaviour(slots));
      } catch (OutputLoopException loop) {
        List<Integer> round = jointsOf(loop.loop(), slots);
        circles.add(new Circle(words(round), lastCable(round, cables)));
        cut.add(round.get(0));
      }
    }
  }

  private Behaviour behaviour(SlotMap slots) {
    Map<Integer, Expression> outputs = new HashMap<>();
    for (int j = 0; j < joints.count(); j++) {
      for (MemberBus driver : drives.several(j)) {
        outputs.put(slots.own(driver), moved(driver, slots));
      }
      Optional<Expression> word = word(j, slots);
      if (cut.contains(j)) {
        // a joint that leaves shows what the state holds; any other is the state itself
        word = outer[j] < 0 ? Optional.empty() : Optional.of(named(slots.kept(j), slots));
      }
      int slot = slots.ofJoint(j);
      word.ifPresent(expression -> outputs.put(slot, expression));
    }
    for (int m = 0; m < members.size(); m++) {
      inside(m, slots, outputs);
    }
    return new Behaviour(slots.scope(), outputs, states(slots));
  }

  /** What comes to a joint; empty where it leaves the whole and that is not known. */
  private Optional<Expression> word(int joint, SlotMap slots) {
    List<MemberBus> said = drives.said(joint);
    boolean leaves = outer[joint] >= 0;
    if (drives.isOpen(joint)) {
      boolean output = leaves && buses.get(outer[joint]).role() == Role.OUTPUT;
      return output ? Optional.empty() : Optional.of(constant("x", joint, slots));
    }
    if (said.isEmpty()) {
      return leaves ? Optional.empty() : Optional.of(constant("0", joint, slots));
    }
    if (said.size() == 1) {
      return Optional.of(moved(said.get(0), slots));
    }
    String any =
        said.stream()
            .map(driver -> slots.scope().nameOf(slots.own(driver)))
            .collect(Collectors.joining(" | "));
    return Optional.of(Expression.compile(any, slots.scope()));
  }

  private Expression constant(String bit, int joint, SlotMap slots) {
    return Expression.compile("0b" + bit.repeat(joints.width(joint)), slots.scope());
  }

  private static Expression named(int slot, SlotMap slots) {
    return Expression.compile(slots.scope().nameOf(slot), slots.scope());
  }

  private Expression moved(MemberBus driver, SlotMap slots) {
    Behaviour own = members.get(driver.member()).card().behaviour().orElseThrow();
    return moved(own.output(driver.busIndex()), driver.member(), slots);
  }

  private static Expression moved(Expression own, int member, SlotMap slots) {
    return own.moved(slot -> slots.moved(member, slot), slots.scope());
  }

  /** What a card has inside that is itself made of several. */
  private void inside(int member, SlotMap slots, Map<Integer, Expression> outputs) {
    Optional<Behaviour> behaviour = members.get(member).card().behaviour();
    int buses = members.get(member).card().buses().size();
    int end = behaviour.map(Behaviour::firstStateSlot).orElse(buses);
    for (int slot = buses; slot < end; slot++) {
      Expression own = behaviour.orElseThrow().output(slot);
      outputs.put(slots.moved(member, slot), moved(own, member, slots));
    }
  }

  private List<State> states(SlotMap slots) {
    List<State> all = new ArrayList<>();
    for (int m = 0; m < members.size(); m++) {
      Member member = members.get(m);
      int number = m;
      member.card().behaviour().map(Behaviour::states).orElse(List.of()).stream()
          .map(
              state ->
                  new State(
                      member.own(state.name()),
                      state.width(),
                      state.powerOn(),
                      moved(state.next(), number, slots),
                      state.at()))
          .forEach(all::add);
    }
    for (int j : cut) {
      int width = joints.width(j);
      Literal unknown = new Literal(0, -1L >>> (64 - width), width);
      Position at = joints.drivers(j).get(0).in(members).at();
      all.add(new State(joints.name(j), width, unknown, word(j, slots).orElseThrow(), at));
    }
    return all;
  }

  private List<Integer> jointsOf(List<String> loop, SlotMap slots) {
    List<Integer> round = new ArrayList<>();
    for (String name : loop) {
      int slot = slots.scope().slotOf(name);
      IntStream.range(0, joints.count()).filter(j -> slots.ofJoint(j) == slot).forEach(round::add);
    }
    if (round.get(0).equals(round.get(round.size() - 1)) && round.size() > 1) {
      round.remove(round.size() - 1);
    }
    // begin at the same place whatever the order of slots
    Collections.rotate(round, -round.indexOf(Collections.min(round)));
    return round;
  }

  /** From each bus that is driven to the one that it goes to, and on to what that card drives. */
  private List<String> words(List<Integer> round) {
    List<String> names = new ArrayList<>();
    for (int i = 0; i < round.size(); i++) {
      int here = round.get(i);
      int next = round.get((i + 1) % round.size());
      names.add(joints.name(here));
      joints.buses(here).stream()
          .filter(bus -> joints.drivers(next).stream().anyMatch(d -> d.member() == bus.member()))
          .map(bus -> bus.name(members))
          .filter(name -> !name.equals(joints.name(here)))
          .findFirst()
          .ifPresent(names::add);
    }
    names.add(names.get(0));
    return names;
  }

  private Position lastCable(List<Integer> round, List<Cable> cables) {
    return cables.stream()
        .filter(cable -> round.contains(joints.of(cable.from())))
        .map(Cable::at)
        .reduce((earlier, later) -> later)
        .orElseThrow();
  }
}
