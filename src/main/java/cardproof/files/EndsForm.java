package cardproof.files;

import cardproof.card.wiring.Part;
import java.util.List;
import java.util.OptionalInt;

/** A part between two nets. */
record EndsForm(IndexText first, IndexText second, Maker maker) implements PartForm {
  /** From the two nets to the part. */
  interface Maker {
    Part part(Making making, int first, int second);
  }

  @Override
  public long parts() {
    return 1;
  }

  @Override
  public List<IndexText> nets() {
    return List.of(first, second);
  }

  @Override
  public void make(Making making) {
    OptionalInt one = making.net(first);
    OptionalInt other = making.net(second);
    if (one.isEmpty() || other.isEmpty()) {
      return;
    }
    if (one.getAsInt() == other.getAsInt()) {
      making.error(
          second.at(),
          "both ends of " + making.name() + " are on one net, " + second.text().described(),
          "two nets",
          "");
      return;
    }
    making.place().assembly().add(maker.part(making, one.getAsInt(), other.getAsInt()));
  }
}
