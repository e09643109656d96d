package cardproof.cli;

import cardproof.bits.BitRange;
import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.review.Review;
import cardproof.fixture.HookUp;
import cardproof.plan.Gap;
import cardproof.plan.LineChanges;
import cardproof.plan.LongestHold;
import cardproof.plan.PatternStep;
import cardproof.plan.Plan;
import cardproof.plan.PlanCheck;
import cardproof.plan.PlanCost;
import cardproof.plan.StepNumbers;
import cardproof.text.Problem;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** What was found out about a plan, as one JSON object. Keys are only ever added. */
final class CheckJson {
  private final Plan plan;
  private final Card card;
  private final PlanCheck check;
  private final Optional<Review> review;
  private final HookUp hookUp;
  private final JsonWriter json;

  private CheckJson(
      Plan plan, PlanCheck check, Optional<Review> review, HookUp hookUp, JsonWriter json) {
    this.plan = plan;
    this.card = plan.card();
    this.check = check;
    this.review = review;
    this.hookUp = hookUp;
    this.json = json;
  }

  /**
   * @param review of the card's wiring, where that is known
   * @param warnings of files and plan
   */
  static String of(
      Plan plan, PlanCheck check, Optional<Review> review, HookUp hookUp, List<Problem> warnings) {
    StringWriter text = new StringWriter();
    try (JsonWriter json = new JsonWriter(text)) {
      json.setIndent("  ");
      new CheckJson(plan, check, review, hookUp, json).write(warnings);
    } catch (IOException impossible) {
      throw new UncheckedIOException("writing to memory", impossible);
    }
    return text.toString();
  }

  private void write(List<Problem> warnings) throws IOException {
    json.beginObject();
    json.name("plan").value(plan.title());
    json.name("card").value(card.name());
    json.name("vectors").value(check.vectors());
    json.name("notJudgedBits").value(check.notJudgedBits());
    json.name("drives").value(HookUp.drivesNeeded(card));
    json.name("watches").value(HookUp.watchesNeeded(card));
    json.name("holdsState").value(card.hasState());
    json.name("settleMs").value(card.limits().settleUs() / 1e3);
    json.name("quietMs").value(card.limits().quietUs() / 1e3);
    json.name("quietFloorMs").value(card.relays().quietFloorUs() / 1e3);
    if (review.isPresent()) {
      ReviewJson.brief(card, json, review.get());
    }
    steps();
    cost(check.cost());
    json.name("gaps").beginArray();
    GapWords words = new GapWords(plan, check.vectors());
    for (Gap gap : check.gaps()) {
      gap(gap, words);
    }
    json.endArray();
    json.name("warnings").beginArray();
    for (Problem warning : warnings) {
      json.value(warning.toString());
    }
    json.endArray();
    json.name("hookUp").beginArray();
    for (Line line : card.lines()) {
      line(line);
      channel("drive", hookUp.driveOf(line));
      channel("watch", hookUp.watchOf(line));
      json.endObject();
    }
    json.endArray();
    json.endObject();
  }

  /** How many steps there are; the numbers, from 1, of those that establish what a card keeps. */
  private void steps() throws IOException {
    Map<PatternStep, Integer> numbers = StepNumbers.of(plan.steps());
    json.name("steps").value(numbers.size());
    if (!card.hasState()) {
      return;
    }
    json.name("syncSteps").beginArray();
    for (int number :
        numbers.entrySet().stream()
            .filter(entry -> check.syncPoints().establishes(entry.getKey()))
            .map(entry -> entry.getValue() + 1)
            .sorted()
            .toList()) {
      json.value(number);
    }
    json.endArray();
  }

  private void cost(PlanCost cost) throws IOException {
    json.name("cost").beginObject();
    json.name("expectedMs").value(cost.expectedUs() / 1e3);
    json.name("atMostMs").value(cost.atMostUs() / 1e3);
    json.name("estimate").value(CheckReport.estimate(cost));
    json.name("audits").value(cost.audits());
    json.name("driveChanges").value(cost.driveChanges());
    json.name("lines").beginArray();
    for (LineChanges changes : cost.drives()) {
      line(changes.line());
      json.name("changes").value(changes.changes());
      json.endObject();
    }
    json.endArray();
    json.name("longestHold");
    if (cost.longestHold().isPresent()) {
      hold(cost.longestHold().get());
    } else {
      json.nullValue();
    }
    json.endObject();
  }

  private void hold(LongestHold hold) throws IOException {
    json.beginObject();
    json.name("vector").value(hold.firstVector() + 1);
    json.name("vectors").value(hold.vectors());
    json.name("at").value(hold.at());
    json.name("expectedMs").value(hold.expectedUs() / 1e3);
    json.name("atMostMs").value(hold.atMostUs() / 1e3);
    json.endObject();
  }

  private void gap(Gap gap, GapWords words) throws IOException {
    json.beginObject();
    json.name("kind").value(gap.kind().name().toLowerCase(Locale.ROOT).replace('_', ' '));
    json.name("name").value(gap.name());
    json.name("ranges").beginArray();
    for (BitRange range : BitRange.of(gap.bits())) {
      json.value(range.of(gap.name(), gap.width()));
    }
    json.endArray();
    json.name("lines").beginArray();
    if (gap.slot() < card.buses().size()) {
      Bus bus = card.buses().get(gap.slot());
      for (int bit = 0; bit < bus.width(); bit++) {
        if ((gap.bits() >>> bit & 1) != 0) {
          line(card.lines().get(card.firstLine(gap.slot()) + bit));
          json.endObject();
        }
      }
    }
    json.endArray();
    json.name("judged").value(gap.judged());
    json.name("words").value(words.sentence(gap));
    json.endObject();
  }

  /** Begins an object with a line's names. */
  private void line(Line line) throws IOException {
    json.beginObject();
    json.name("line").value(line.name());
    json.name("label").value(line.label());
    json.name("pin").value(line.pin().toString());
  }

  private void channel(String name, int number) throws IOException {
    json.name(name);
    if (number == HookUp.NOTHING) {
      json.nullValue();
    } else {
      json.value(number);
    }
  }
}
