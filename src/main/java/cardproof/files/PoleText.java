package cardproof.files;

import cardproof.card.wiring.Pole;
import cardproof.card.wiring.Terminal;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** The nets of a pole, as far as they are wired. */
record PoleText(Optional<IndexText> com, Optional<IndexText> no, Optional<IndexText> nc) {
  static final PoleText UNUSED = new PoleText(Optional.empty(), Optional.empty(), Optional.empty());

  List<IndexText> nets() {
    return Stream.of(com, no, nc).flatMap(Optional::stream).toList();
  }

  Pole pole(Making making) {
    return new Pole(net(com, making), net(no, making), net(nc, making));
  }

  private static int net(Optional<IndexText> text, Making making) {
    return text.map(net -> making.net(net).orElse(Terminal.NOT_WIRED)).orElse(Terminal.NOT_WIRED);
  }
}
