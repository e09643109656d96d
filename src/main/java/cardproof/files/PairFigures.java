package cardproof.files;

import cardproof.card.Limits;
import cardproof.card.RelayFigures;
import cardproof.card.Supply;
import cardproof.card.compose.Composition;
import cardproof.card.compose.Member;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;

/** A pair's supply, relays and limits: as it gives them, held against those of its cards. */
final class PairFigures {
  private final List<Member> members;
  private final Problems problems;

  PairFigures(List<Member> members, Problems problems) {
    this.members = members;
    this.problems = problems;
  }

  /** What the pair says, or the cards' voltage and all that they may draw together. */
  Optional<Supply> supply(Fields pair) {
    long millivolts = members.get(0).card().supply().millivolts();
    boolean alike =
        members.stream().allMatch(member -> member.card().supply().millivolts() == millivolts);
    if (!alike) {
      String each =
          members.stream()
              .map(m -> m.name() + " " + Quantity.VOLTAGE.text(m.card().supply().millivolts()))
              .collect(Collectors.joining(", "));
      problems.error(
          pair.at(),
          "the cards run on different voltages: " + each,
          "cards that one supply can feed",
          "");
      return Optional.empty();
    }
    long milliamps =
        members.stream().mapToLong(member -> member.card().supply().limitMilliamps()).sum();
    if (!pair.has("supply")) {
      return Optional.of(new Supply(millivolts, milliamps, least()));
    }
    Optional<Fields> given =
        Fields.of(pair.get("supply").orElseThrow(), "supply", CardReader.SUPPLY_KEYS, problems);
    return given
        .flatMap(fields -> CardReader.supply(fields, problems))
        .filter(supply -> isTheirs(supply, millivolts, given.orElseThrow()));
  }

  /** What the most demanding card wants. */
  private OptionalLong least() {
    return members.stream()
        .map(member -> member.card().supply().leastMillivolts())
        .flatMapToLong(OptionalLong::stream)
        .max();
  }

  private boolean isTheirs(Supply supply, long millivolts, Fields fields) {
    if (supply.millivolts() == millivolts) {
      return true;
    }
    problems.error(
        fields.get("voltage").map(Node::at).orElse(fields.at()),
        "the pair is fed with "
            + Quantity.VOLTAGE.text(supply.millivolts())
            + ", and its cards run on "
            + Quantity.VOLTAGE.text(millivolts),
        "the voltage of its cards",
        "");
    return false;
  }

  /** What the pair says, and where it says nothing the slowest of the cards, stages together. */
  RelayFigures relays(Fields pair) {
    RelayFigures together = Composition.relays(members);
    Optional<Node> node = pair.get("relays");
    if (node.isEmpty()) {
      warnOfStages(together, pair);
      return together;
    }
    Optional<Fields> fields = Fields.of(node.get(), "relays", RelaysReader.KEYS, problems);
    if (fields.isEmpty()) {
      return together;
    }
    if (!fields.get().has("unseen-stages")) {
      warnOfStages(together, fields.get());
    }
    RelayFigures given = new PairRelays(fields.get(), problems).over(together);
    return longEnough(given, node.get()) ? given : together;
  }

  private void warnOfStages(RelayFigures together, Fields said) {
    String each =
        members.stream()
            .map(m -> m.card().relays().unseenStages() + " of " + m.name())
            .collect(Collectors.joining(", "));
    problems.warn(
        said.at(),
        "the pair does not say how many relays move unseen, so all "
            + together.unseenStages()
            + " are assumed that do on its cards ("
            + each
            + ")",
        "",
        "Count the most relays in series with no watched line between them, across the cable too,"
            + " and write it as relays: {unseen-stages: "
            + together.unseenStages()
            + "}");
  }

  /** What is not watched of one card alone is not watched of the pair either. */
  private boolean longEnough(RelayFigures given, Node relays) {
    Member slowest =
        Collections.max(
            members, Comparator.comparingLong(member -> member.card().relays().silentChainUs()));
    long leastUs = slowest.card().relays().silentChainUs();
    if (given.silentChainUs() >= leastUs) {
      return true;
    }
    problems.error(
        relays.at(),
        "these relays move unseen for "
            + Quantity.TIME.text(given.silentChainUs())
            + " at the most, and those of card "
            + slowest.name()
            + " alone for "
            + Quantity.TIME.text(leastUs),
        "figures no shorter than those of each card",
        "");
    return false;
  }

  /** What the pair says; no pattern is held longer than every card allows. */
  Optional<Limits> limits(Fields pair, RelayFigures relays) {
    if (!pair.has("limits")) {
      long sumUs = members.stream().mapToLong(m -> m.card().limits().settleUs()).sum();
      problems.error(
          pair.at(),
          "the pair has no 'limits'",
          "limits: {settle: " + Quantity.TIME.text(sumUs) + "}",
          "That is one card's limit after the other's; what the pair needs may be less");
      return Optional.empty();
    }
    return new LimitsReader(problems).read(pair, Map.of(), relays).flatMap(l -> held(l, pair));
  }

  private Optional<Limits> held(Limits limits, Fields pair) {
    Member shortest =
        Collections.min(
            members, Comparator.comparingLong(member -> member.card().limits().holdMs()));
    long mostMs = shortest.card().limits().holdMs();
    if (limits.holdMs() <= mostMs) {
      return Optional.of(limits);
    }
    Node given = pair.get("limits").orElseThrow();
    boolean said =
        given instanceof Node.Mapping map
            && map.entries().stream().anyMatch(entry -> entry.key().text().equals("hold"));
    if (!said && limits.watchUs() <= mostMs * 1000) {
      return Optional.of(
          new Limits(
              limits.settleUs(), limits.busSettleUs(), limits.quietUs(), limits.watchUs(), mostMs));
    }
    problems.error(
        given.at(),
        said
            ? "a pattern may be held for " + Quantity.TIME.text(limits.holdMs() * 1000)
            : "a step is watched for up to " + Quantity.TIME.text(limits.watchUs()),
        "at most "
            + Quantity.TIME.text(mostMs * 1000)
            + ", as long as card "
            + shortest.name()
            + " allows its coils to be held",
        "");
    return Optional.empty();
  }
}
