package cardproof.files;

import cardproof.card.wiring.RelayType;
import java.util.Optional;

/** Where a card's relay types come from, which it needs only if it has relays. */
final class RelayTypes {
  private final Optional<RelayLibrary> library;
  private final boolean named;
  private final Problems problems;

  /**
   * @param library empty where there is none, or it could not be read
   * @param named whether the card names one
   */
  RelayTypes(Optional<RelayLibrary> library, boolean named, Problems problems) {
    this.library = library;
    this.named = named;
    this.problems = problems;
  }

  /** The type; empty, with a problem said, where there is none of that name. */
  Optional<RelayType> type(Node.Text name) {
    if (!named) {
      problems.error(
          name.at(),
          "relay type " + name.described() + ", and the wiring names no file of relay types",
          "relay-types: ../relays.yaml under 'wiring'",
          "");
    }
    return library.flatMap(types -> types.type(name, problems));
  }
}
