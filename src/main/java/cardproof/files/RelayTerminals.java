package cardproof.files;

import cardproof.card.wiring.RelayType;
import cardproof.text.Nearest;
import java.util.List;
import java.util.Optional;

/** What is said where a relay has no terminal of a name. */
final class RelayTerminals {
  private RelayTerminals() {}

  static void unknown(Node.Text name, int poles, Problems problems) {
    problems.error(
        name.at(),
        name.described() + " is no terminal of a relay of " + count(poles),
        "coil1, coil2 or the socket's A1, A2; " + contacts(poles),
        near(name, TerminalNames.relayTerminals(poles)));
  }

  /** Where only a contact is wanted. */
  static void unknownOfPole(Node.Text name, Optional<RelayType> type, Problems problems) {
    int poles = type.map(RelayType::poles).orElse(RelayType.MOST_POLES);
    problems.error(
        name.at(),
        name.described()
            + " is no contact of "
            + type.map(t -> t.name() + ", which has " + count(poles)).orElse("a relay"),
        "com, no, nc; " + contacts(poles),
        near(name, List.of("com", "no", "nc")));
  }

  private static String count(int poles) {
    return poles + (poles == 1 ? " pole" : " poles");
  }

  private static String contacts(int poles) {
    return poles == 1
        ? "com1, no1, nc1, or as printed on the socket 11, 14, 12"
        : "com1, no1, nc1 up to nc"
            + poles
            + ", or as printed on the socket 11, 14, 12 up to "
            + poles
            + "2";
  }

  private static String near(Node.Text name, List<String> known) {
    return Nearest.to(name.text(), known).map(near -> "Did you mean '" + near + "'?").orElse("");
  }
}
