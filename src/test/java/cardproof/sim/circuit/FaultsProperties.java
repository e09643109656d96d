package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.Card;
import cardproof.card.TestWirings;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultList;
import cardproof.card.fault.Intermittent;
import cardproof.card.wiring.Part;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.Terminal;
import cardproof.card.wiring.Wiring;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

class FaultsProperties {
  private static final Card ADDER = TestWirings.adder(4);
  private static final Wiring SOUND = ADDER.wiring().orElseThrow();
  private static final List<Fault> ALL = FaultList.of(ADDER).all().toList();

  @Provide
  Arbitrary<List<Fault>> faults() {
    Arbitrary<Fault> once = Arbitraries.of(ALL);
    Arbitrary<Fault> some = Arbitraries.of(ALL).map(fault -> new Intermittent(fault, 100, 5_000));
    return Arbitraries.oneOf(once, some).list().uniqueElements(Fault::name).ofMaxSize(4);
  }

  private static void partsAndNetsStand(Wiring sound, FaultyWiring faulty) {
    Wiring after = faulty.wiring();
    List<Part> parts = after.parts();
    assertThat(parts.subList(0, sound.parts().size()))
        .extracting(Part::name)
        .isEqualTo(sound.parts().stream().map(Part::name).toList());
    assertThat(parts.subList(0, sound.parts().size()))
        .extracting(part -> part.getClass().getName())
        .isEqualTo(sound.parts().stream().map(part -> part.getClass().getName()).toList());
    assertThat(parts).extracting(Part::name).doesNotHaveDuplicates();
    assertThat(after.nets().subList(0, sound.nets().size())).isEqualTo(sound.nets());
    assertThat(after.nets()).extracting(net -> net.name()).doesNotHaveDuplicates();
    assertThat(after.supply()).isEqualTo(sound.supply());
    assertThat(after.ground()).isEqualTo(sound.ground());
    int nets = after.nets().size();
    for (Part part : parts) {
      for (Terminal terminal : part.terminals()) {
        assertThat(terminal.net()).isBetween(Terminal.NOT_WIRED, nets - 1);
      }
    }
    assertThat(after.lineNets()).hasSize(sound.lineNets().size());
    assertThat(after.lineNets()).allSatisfy(net -> assertThat(net).isBetween(0, nets - 1));
    for (SpellSwitch one : faulty.switches()) {
      assertThat(one.firstNet()).isBetween(0, nets - 1).isNotEqualTo(one.secondNet());
      assertThat(one.secondNet()).isBetween(0, nets - 1);
    }
  }

  @Property
  void whateverIsPutPartsAndNetsStayWhatTheyAre(@ForAll("faults") List<Fault> faults) {
    partsAndNetsStand(SOUND, Faults.put(SOUND, ADDER, faults, 1));
  }

  @Property(tries = 1)
  void everyFaultOfTheAdderCanBePutAndChangesSomething() {
    Card wide = TestWirings.adder(12);
    Wiring sound = wide.wiring().orElseThrow();
    FaultList.of(wide)
        .all()
        .forEach(
            fault -> {
              FaultyWiring faulty = Faults.put(sound, wide, List.of(fault), 1);
              partsAndNetsStand(sound, faulty);
              assertThat(Drawing.changes(sound, faulty)).as(fault.name()).isNotEmpty();
              assertThat(faulty.switches()).isEmpty();
            });
  }

  /** While it is away the card is sound, while it is there it is as if it were always there. */
  @Property
  void whatComesAndGoesIsSoundOrFaultyByTurns(@ForAll("one") Fault fault) {
    FaultyWiring some = Faults.put(SOUND, ADDER, List.of(new Intermittent(fault, 100, 5_000)), 1);
    assertThat(some.switches()).isNotEmpty();
    Joints sound = Joints.of(FaultyWiring.always(SOUND), false);
    Joints always = Joints.of(Faults.put(SOUND, ADDER, List.of(fault), 1), false);
    assertThat(Joints.of(some, false).groups()).as("away").isEqualTo(sound.groups());
    assertThat(Joints.of(some, true).groups()).as("there").isEqualTo(always.groups());
  }

  @Provide
  Arbitrary<Fault> one() {
    return Arbitraries.of(ALL);
  }

  /** Faults on different relays and lines; whichever is put first, the same card comes of it. */
  @Property
  void theOrderDoesNotMatterWhereFaultsDoNotMeet(
      @ForAll("faults") List<Fault> faults, @ForAll Random random) {
    Set<Integer> nets = new HashSet<>();
    List<Fault> apart = new ArrayList<>();
    for (Fault fault : faults) {
      Set<Integer> own = netsOf(fault);
      if (Collections.disjoint(nets, own)) {
        nets.addAll(own);
        apart.add(fault);
      }
    }
    List<Fault> shuffled = new ArrayList<>(apart);
    Collections.shuffle(shuffled, random);
    Joints first = Joints.of(Faults.put(SOUND, ADDER, apart, 1), true);
    Joints second = Joints.of(Faults.put(SOUND, ADDER, shuffled, 1), true);
    assertThat(second.groups()).isEqualTo(first.groups());
  }

  /** All nets of parts and lines that a fault is at, the rails left out. */
  private static Set<Integer> netsOf(Fault fault) {
    Set<Integer> nets = new HashSet<>();
    fault
        .sites()
        .forEach(
            site -> {
              String name = site.name().replaceFirst("^net ", "");
              for (Part part : SOUND.parts()) {
                boolean of = name.equals(part.name()) || name.startsWith(part.name() + ".");
                if (of) {
                  part.terminals().forEach(terminal -> nets.add(terminal.net()));
                }
              }
              nets.add(SOUND.net(name));
            });
    nets.removeAll(Set.of(SOUND.supply(), SOUND.ground(), Terminal.NOT_WIRED));
    return nets;
  }

  @Property
  void untouchedRelaysAreTheSameObjects(@ForAll("one") Fault fault) {
    FaultyWiring faulty = Faults.put(SOUND, ADDER, List.of(fault), 1);
    long changed =
        SOUND.parts().stream()
            .filter(Relay.class::isInstance)
            .filter(part -> faulty.wiring().parts().stream().noneMatch(same -> same == part))
            .count();
    // a rail inside may have contacts of four relays on it: A and E of one bit, A and B of two
    assertThat(changed).isLessThanOrEqualTo(fault.name().contains("+12V") ? 99 : 5);
  }
}
