package cardproof.files;

import cardproof.card.wiring.Diode;
import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Relay;
import cardproof.card.wiring.RelayType;
import cardproof.text.Position;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.Stream;

/**
 * A relay, and the diode across its coil if it has one.
 *
 * @param poles as many as the type has
 */
record RelayForm(
    RelayType type,
    IndexText coil1,
    IndexText coil2,
    boolean flyback,
    Optional<IndexText> socket,
    List<PoleText> poles)
    implements PartForm {
  static final String FLYBACK = ".flyback";

  @Override
  public long parts() {
    return flyback ? 2 : 1;
  }

  @Override
  public List<IndexText> nets() {
    return Stream.concat(
            Stream.of(coil1, coil2), poles.stream().flatMap(pole -> pole.nets().stream()))
        .toList();
  }

  @Override
  public void make(Making making) {
    OptionalInt one = making.net(coil1);
    OptionalInt other = making.net(coil2);
    List<Pole> wired = poles.stream().map(pole -> pole.pole(making)).toList();
    Optional<String> tag = socketTag(making);
    if (one.isEmpty() || other.isEmpty() || tag.isEmpty()) {
      return;
    }
    if (one.getAsInt() == other.getAsInt()) {
      making.error(
          coil2.at(),
          "both ends of the coil of "
              + making.name()
              + " are on one net, "
              + coil2.text().described(),
          "two nets",
          "");
      return;
    }
    Assembly assembly = making.place().assembly();
    int positive = one.getAsInt();
    int negative = other.getAsInt();
    assembly.add(
        new Relay(
            making.name(), type, positive, negative, wired, tag.get(), making.spot(), making.at()));
    if (flyback) {
      boolean turned = assembly.isGround(positive) || assembly.isSupply(negative);
      assembly.add(
          new Diode(
              making.name() + FLYBACK,
              turned ? positive : negative,
              turned ? negative : positive,
              making.spot(),
              making.at()));
    }
  }

  /** The socket's own tag, or the relay's name; empty, with a problem said, where it is taken. */
  private Optional<String> socketTag(Making making) {
    String tag = making.name();
    Position at = making.at();
    if (socket.isPresent()) {
      at = socket.get().at();
      try {
        tag = making.place().fullName(socket.get().name(making.values()));
      } catch (IndexException without) {
        making.error(
            at,
            socket.get().text().described() + " " + without.getMessage(),
            "an index from 0 up",
            "");
        return Optional.empty();
      }
    }
    Optional<Position> taken = making.place().assembly().claimSocket(tag, at);
    if (taken.isPresent()) {
      making.error(
          at,
          "socket " + tag + " a second time; the first is in line " + taken.get().line(),
          "one relay in each socket",
          socket.isPresent() ? "Give the socket of " + making.name() + " another tag" : "");
    }
    return taken.isPresent() ? Optional.empty() : Optional.of(tag);
  }
}
