package cardproof.cli;

import cardproof.card.Card;
import cardproof.card.wiring.review.Chain;
import cardproof.card.wiring.review.Currents;
import cardproof.card.wiring.review.Finding;
import cardproof.card.wiring.review.LineLoad;
import cardproof.card.wiring.review.Review;
import cardproof.card.wiring.review.Tally;
import cardproof.fixture.HookUp;
import cardproof.text.Problem;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** What was found out about a card's wiring, as one JSON object. Keys are only ever added. */
final class ReviewJson {
  private final Card card;
  private final JsonWriter json;

  private ReviewJson(Card card, JsonWriter json) {
    this.card = card;
    this.json = json;
  }

  /** A card's own object. */
  static String of(Card card, Optional<Review> review, List<Problem> warnings) {
    StringWriter text = new StringWriter();
    try (JsonWriter json = new JsonWriter(text)) {
      json.setIndent("  ");
      json.beginObject();
      json.name("card").value(card.name());
      json.name("title").value(card.title());
      json.name("drives").value(HookUp.drivesNeeded(card));
      json.name("watches").value(HookUp.watchesNeeded(card));
      json.name("holdsState").value(card.hasState());
      json.name("settleMs").value(card.limits().settleUs() / 1e3);
      json.name("quietMs").value(card.limits().quietUs() / 1e3);
      json.name("quietFloorMs").value(card.relays().quietFloorUs() / 1e3);
      if (review.isPresent()) {
        new ReviewJson(card, json).wiring(review.get(), true);
      }
      json.name("warnings").beginArray();
      for (Problem warning : warnings) {
        json.value(warning.toString());
      }
      json.endArray();
      json.endObject();
    } catch (IOException impossible) {
      throw new UncheckedIOException("writing to memory", impossible);
    }
    return text.toString();
  }

  /** The key {@code wiring} of a plan's object. */
  static void brief(Card card, JsonWriter json, Review review) throws IOException {
    new ReviewJson(card, json).wiring(review, false);
  }

  private void wiring(Review review, boolean whole) throws IOException {
    json.name("wiring").beginObject();
    json.name("relays").value(review.tally().relays());
    chain("longestChain", review.chains().longest());
    chain("unseenChain", review.chains().unseen());
    if (whole) {
      json.name("unseenByOutput").beginObject();
      for (Map.Entry<String, Chain> output : review.chains().unseenByOutput().entrySet()) {
        chain(output.getKey(), output.getValue());
      }
      json.endObject();
      parts(review.tally());
      currents(review.currents());
      loads(review.loads());
    }
    firstPower(FirstPower.of(card, review.currents()));
    findings(review.findings());
    json.endObject();
  }

  private void chain(String name, Chain chain) throws IOException {
    json.name(name).beginArray();
    for (String relay : chain.relays()) {
      json.value(relay);
    }
    json.endArray();
  }

  private void parts(Tally tally) throws IOException {
    json.name("relayTypes").beginObject();
    for (Map.Entry<String, Integer> type : tally.relaysByType().entrySet()) {
      json.name(type.getKey()).value(type.getValue());
    }
    json.endObject();
    json.name("polesUsed").value(tally.polesUsed());
    json.name("polesSpare").value(tally.polesSpare());
    json.name("diodes").value(tally.diodes());
    json.name("lamps").value(tally.lamps());
    json.name("otherParts").value(tally.otherParts());
  }

  private void currents(Currents currents) throws IOException {
    json.name("restMilliamps");
    if (currents.atRest().isPresent()) {
      json.value(tenths(currents.atRest().getAsDouble()));
    } else {
      json.nullValue();
    }
    json.name("mostMilliamps").value(tenths(currents.most()));
    json.name("coilMilliamps").value(tenths(currents.coils()));
    json.name("lampMilliamps").value(tenths(currents.lamps()));
  }

  private void firstPower(FirstPower power) throws IOException {
    json.name("firstPower").beginObject();
    json.name("firstLimitMilliamps").value(power.firstLimitMilliamps());
    json.name("workingLimitMilliamps").value(power.workingLimitMilliamps());
    json.endObject();
  }

  private void loads(List<LineLoad> loads) throws IOException {
    json.name("driveLoads").beginArray();
    for (LineLoad load : loads) {
      json.beginObject();
      json.name("line").value(load.name());
      json.name("milliamps").value(tenths(load.milliamps()));
      json.name("mostMilliamps").value(tenths(load.mostMilliamps()));
      json.name("parts").beginArray();
      for (String part : load.parts()) {
        json.value(part);
      }
      json.endArray();
      json.endObject();
    }
    json.endArray();
  }

  private void findings(List<Finding> findings) throws IOException {
    json.name("findings").beginArray();
    for (Finding finding : findings) {
      json.beginObject();
      json.name("kind").value(finding.kind().toString());
      json.name("severity").value(finding.severity().name().toLowerCase(Locale.ROOT));
      json.name("at").value(finding.problem().where());
      json.name("words").value(finding.problem().toString());
      json.endObject();
    }
    json.endArray();
  }

  private static double tenths(double milliamps) {
    return Math.round(milliamps * 10) / 10.0;
  }
}
