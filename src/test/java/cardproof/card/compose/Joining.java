package cardproof.card.compose;

import cardproof.card.Card;
import cardproof.card.Limits;
import cardproof.card.RelayFigures;
import cardproof.card.Supply;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;

/** Cards put together in code, by the names of their buses. */
final class Joining {
  static final Position HERE = new Position("test", 1, 1);

  private final List<Member> members = new ArrayList<>();
  private final List<Cable> cables = new ArrayList<>();
  private final List<Leaving> leaving = new ArrayList<>();

  Joining card(String name, Card card) {
    members.add(new Member(name, card));
    return this;
  }

  Joining cable(String from, String to) {
    return cable(from, to, "P" + (cables.size() + 1));
  }

  Joining cable(String from, String to, String plug) {
    int width = find(from).in(members).width();
    List<String> cores = IntStream.rangeClosed(1, width).mapToObj(n -> plug + "." + n).toList();
    Position at = new Position("cable", cables.size() + 1, 1);
    cables.add(new Cable(find(from), find(to), cores, at));
    return this;
  }

  Joining leaves(String name, String bus) {
    leaving.add(new Leaving(name, find(bus), HERE));
    return this;
  }

  private MemberBus find(String bus) {
    String[] parts = bus.split("\\.");
    int member =
        IntStream.range(0, members.size())
            .filter(m -> members.get(m).name().equals(parts[0]))
            .findFirst()
            .orElseThrow();
    return new MemberBus(member, members.get(member).card().busIndex(parts[1]));
  }

  List<Member> members() {
    return members;
  }

  Composition composition() {
    return new Composition(members, cables, leaving);
  }

  Card whole() {
    return card(composition());
  }

  Card card(Composition composition) {
    RelayFigures relays = Composition.relays(members);
    long quietUs = relays.quietFloorUs();
    Limits limits = new Limits(500_000, Map.of(), quietUs, 500_000 + quietUs, 10_000);
    return composition.card("whole", "all", new Supply(12_000, 4_000), limits, relays, HERE);
  }
}
