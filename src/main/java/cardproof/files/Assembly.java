package cardproof.files;

import cardproof.card.wiring.Part;
import cardproof.card.wiring.Wiring;
import cardproof.text.Position;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * A wiring while its parts are spelled out: which references and sockets are taken, which nets all
 * blocks know, and what went wrong. A mistake in a block or a repeat is said once, for the first
 * use of it, with how often it came again.
 */
final class Assembly {
  private record Said(String found, String wanted, String next, int more) {}

  private final Wiring.Builder builder = new Wiring.Builder();
  private final Map<String, Position> references = new HashMap<>();
  private final Map<String, Position> sockets = new HashMap<>();
  private final Set<String> everywhere = new HashSet<>();
  private final Map<Position, Said> said = new LinkedHashMap<>();
  private final LineNames lines;
  private final int supply;
  private final int ground;

  /**
   * @param supply name of the net at which the supply comes in
   * @param ground name of the net that its current returns by
   */
  Assembly(LineNames lines, Node.Text supply, Node.Text ground) {
    this.lines = lines;
    this.supply = builder.net(supply.text(), supply.at());
    this.ground = builder.net(ground.text(), ground.at());
    addEverywhere(supply.text());
    addEverywhere(ground.text());
  }

  boolean isSupply(int net) {
    return net == supply;
  }

  boolean isGround(int net) {
    return net == ground;
  }

  Wiring.Builder builder() {
    return builder;
  }

  LineNames lines() {
    return lines;
  }

  int net(String name, Position at) {
    return builder.net(name, at);
  }

  void add(Part part) {
    builder.add(part);
  }

  /** From here on every block knows this net by its name. */
  void addEverywhere(String net) {
    everywhere.add(net);
  }

  /** Nets that every block knows by their names. */
  Set<String> everywhere() {
    return everywhere;
  }

  boolean everywhere(String base, String suffix) {
    return everywhere.contains(base) || everywhere.contains(base + suffix);
  }

  /** Where a reference was taken before; empty where it was free and now is taken. */
  Optional<Position> claim(String reference, Position at) {
    return Optional.ofNullable(references.putIfAbsent(reference, at));
  }

  Optional<Position> claimSocket(String socket, Position at) {
    return Optional.ofNullable(sockets.putIfAbsent(socket, at));
  }

  void error(Position at, String found, String wanted, String next) {
    said.merge(
        at,
        new Said(found, wanted, next, 0),
        (first, again) -> new Said(first.found(), first.wanted(), first.next(), first.more() + 1));
  }

  /** Hands on what went wrong. */
  void tell(Problems problems) {
    said.forEach(
        (at, one) ->
            problems.error(
                at,
                one.found() + (one.more() == 0 ? "" : ", and " + one.more() + " more like it"),
                one.wanted(),
                one.next()));
  }
}
