package cardproof.files;

import cardproof.card.Role;
import cardproof.card.compose.Leaving;
import cardproof.card.compose.MemberBus;
import cardproof.text.Position;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** What leaves a pair: which bus of a card, and under which name. */
final class LeavingReader {
  private final PairNames names;
  private final CableReader cable;
  private final CardNames taken;
  private final Problems problems;
  private final List<Leaving> leaving = new ArrayList<>();
  private final Map<MemberBus, Position> outside = new HashMap<>();

  LeavingReader(PairNames names, CableReader cable, Problems problems) {
    this.names = names;
    this.cable = cable;
    this.taken = new CardNames(problems);
    this.problems = problems;
  }

  List<Leaving> leaving() {
    return List.copyOf(leaving);
  }

  void read(Fields pair) {
    read(pair, "inputs", Role.INPUT);
    read(pair, "outputs", Role.OUTPUT);
    read(pair, "shared", Role.SHARED);
    if (!pair.has("inputs") && !pair.has("shared")) {
      problems.error(
          pair.at(),
          "the pair has no lines that could be driven",
          "'inputs' or 'shared', such as inputs: {LD: keep.LD}",
          "");
    }
    if (!pair.has("outputs") && !pair.has("shared")) {
      problems.error(
          pair.at(),
          "the pair has no lines that could be watched",
          "'outputs' or 'shared', such as outputs: {Q: keep.Q}",
          "");
    }
  }

  private void read(Fields pair, String key, Role role) {
    Optional<Node> section = pair.get(key);
    if (section.isEmpty()) {
      return;
    }
    if (!(section.get() instanceof Node.Mapping map)) {
      names.refuse(
          section.get(),
          section.get().saidOf(key),
          "a map from the name outside to the bus of a card, such as " + example(role),
          "");
      return;
    }
    for (Node.Entry entry : map.entries()) {
      boolean named = taken.claim(entry.key(), "a bus");
      names
          .find(entry.value(), entry.key().text())
          .filter(found -> mayLeave(found, role))
          .filter(found -> named)
          .ifPresent(
              found ->
                  leaving.add(new Leaving(entry.key().text(), found.place(), entry.key().at())));
    }
  }

  private static String example(Role role) {
    return role == Role.OUTPUT ? "Q: keep.Q" : role == Role.INPUT ? "LD: keep.LD" : "D: keep.D";
  }

  private boolean mayLeave(PairNames.Found found, Role role) {
    if (found.bus().role() != role) {
      names.refuse(
          found.text(),
          found.name() + " is " + words(found.bus().role()),
          words(role),
          instead(found));
      return false;
    }
    Optional<CableReader.Feed> fed = cable.fed(found.place());
    if (fed.isPresent()) {
      names.refuse(
          found.text(),
          found.name() + " is already driven by the cable in line " + fed.get().at().line(),
          "an input that no cable goes to",
          "To watch it, name " + fed.get().from() + " under 'outputs'");
      return false;
    }
    Optional<Position> first =
        cable.joined(found.place()).stream()
            .filter(outside::containsKey)
            .map(outside::get)
            .findFirst();
    if (first.isPresent()) {
      String again =
          outside.containsKey(found.place())
              ? " leaves the pair a second time"
              : " is joined with a bus that leaves the pair";
      names.refuse(
          found.text(),
          found.name() + again + "; the first is in line " + first.get().line(),
          "one name outside for each bus",
          "");
    }
    outside.putIfAbsent(found.place(), found.text().at());
    return first.isEmpty();
  }

  private static String words(Role role) {
    return switch (role) {
      case INPUT -> "an input of its card";
      case OUTPUT -> "an output of its card";
      case SHARED -> "a shared bus of its card";
    };
  }

  private String instead(PairNames.Found found) {
    Role role = found.bus().role();
    String key = role == Role.SHARED ? "shared" : role.name().toLowerCase(Locale.ROOT) + "s";
    return cable
        .fed(found.place())
        .map(feed -> "To watch it, name " + feed.from() + ", which drives it")
        .orElse("Name it under '" + key + "'");
  }
}
