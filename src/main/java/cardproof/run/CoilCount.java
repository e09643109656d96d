package cardproof.run;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.fixture.SupplySeen;
import cardproof.log.SupplyFinding;
import cardproof.log.Verdict;
import cardproof.plan.Vector;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * Counts the coils that are pulled, and the lamps that are lit, by the current a card draws at
 * rest. It is compared with that of a sound card of the same wiring; coils and lamps may be 10 %
 * off each, and all together as well. Nothing is claimed that a sound card would show once in a
 * million runs.
 *
 * <p>Only vectors that passed teach it anything, since one that failed need not have moved the
 * relays that it should have; of one that failed it says how far its current is off. Lamps, and
 * inputs of the fixture, that hang on a watched line are taken as lit where that line was seen at
 * 1. One thread.
 */
public final class CoilCount {
  private static final Set<Verdict> AT_REST =
      EnumSet.of(Verdict.PASS, Verdict.LATE, Verdict.DISTURBED, Verdict.WRONG);

  /** Logarithm of the odds against a false alarm over a whole run. */
  private static final double CERTAIN = Math.log(1e6);

  /** Those that fit more than a hundred times worse than the best are no candidates. */
  private static final double AS_GOOD = Math.log(100);

  private static final double DEVIATIONS = 6;
  private static final int MOST_NAMED = 6;

  private final Card card;
  private final RestModel model;
  private final List<RestLoad> loads;
  private final LoadFilter filter;
  private final double coilMa;
  private final List<Integer> missing = new ArrayList<>();
  private final List<List<Integer>> candidates = new ArrayList<>();
  private boolean powered = true;
  private boolean doubtful;

  /**
   * What a vector's current says.
   *
   * @param expectedMa what a sound card of this wiring draws; empty where that is not known
   * @param note of a vector that did not pass; may be empty
   */
  record Count(OptionalInt expectedMa, String note, List<SupplyFinding> findings) {
    static final Count NOTHING = new Count(OptionalInt.empty(), "", List.of());
  }

  /**
   * @param resolutionMa least difference of current that the fixture can tell
   * @param stateLost what the card keeps is not known at first
   */
  public CoilCount(Card card, RestModel model, double resolutionMa, boolean stateLost) {
    this.card = card;
    this.model = model;
    this.loads = model.loads();
    this.filter =
        new LoadFilter(
            loads.stream().mapToInt(load -> load.kind().ordinal()).toArray(),
            Math.max(1, resolutionMa));
    this.coilMa =
        loads.stream()
            .filter(load -> load.kind() == RestLoad.Kind.COIL)
            .mapToDouble(RestLoad::milliamps)
            .average()
            .orElse(0);
    this.doubtful = stateLost;
  }

  /** Takes vectors in order, each once. */
  Count take(Judged judged) {
    Vector vector = judged.vector();
    vector
        .step()
        .power()
        .ifPresent(
            power -> {
              powered = power.on();
              model.power(powered);
            });
    Optional<double[]> rest = model.rest(driven(vector));
    noteDoubt(judged);
    SupplySeen seen = judged.observation().supply();
    boolean countable =
        powered
            && !doubtful
            && rest.isPresent()
            && AT_REST.contains(judged.judgement().verdict())
            && judged.observation().quiet()
            && vector.later().isEmpty()
            && seen.currentMa().isPresent();
    return countable ? count(judged, rest.get(), measured(seen)) : Count.NOTHING;
  }

  /** Of a card that keeps something, what it keeps is taken as known again when all is judged. */
  private void noteDoubt(Judged judged) {
    boolean failed = judged.isFailure() || !judged.vector().later().isEmpty();
    boolean power = judged.vector().step().power().isPresent();
    if (!card.hasState()) {
      doubtful = false;
    } else if (failed || power || judged.judgement().verdict() == Verdict.UNTESTED) {
      doubtful = true;
    } else if (judged.vector().notJudgedBits() == 0) {
      doubtful = false;
    }
  }

  private Count count(Judged judged, double[] rest, double measuredMa) {
    double[] takes = asSeen(rest, judged.observation().seen());
    OptionalInt expected = OptionalInt.of((int) Math.round(Arrays.stream(takes).sum()));
    filter.predict(takes);
    if (judged.judgement().verdict() != Verdict.PASS) {
      return new Count(expected, note(takes, measuredMa), List.of());
    }
    filter.learn(measuredMa);
    return new Count(expected, "", findings(judged.vector().number()));
  }

  /** At its own voltage, where the rail is known to stand elsewhere. */
  private double measured(SupplySeen seen) {
    double rail = seen.railMv().orElse(0);
    double whole = card.supply().millivolts();
    return seen.currentMa().getAsInt() * (rail > whole / 2 ? whole / rail : 1);
  }

  private double[] asSeen(double[] rest, long[] seen) {
    double[] takes = rest.clone();
    for (int i = 0; i < takes.length; i++) {
      RestLoad load = loads.get(i);
      if (load.line() >= 0 && load.kind() != RestLoad.Kind.COIL) {
        Line line = card.lines().get(load.line());
        if (line.bus().role().watched()) {
          takes[i] = (seen[line.busIndex()] >>> line.bit() & 1) != 0 ? load.milliamps() : 0;
        }
      }
    }
    return takes;
  }

  /** Of a vector that did not pass: how many coils too few or too many, if that can be said. */
  private String note(double[] takes, double measuredMa) {
    double off = measuredMa - filter.expectedMa();
    if (coilMa == 0 || Math.abs(off) < DEVIATIONS * filter.deviationMa()) {
      return "";
    }
    long coils = Math.round(off / coilMa);
    boolean fits = coils != 0 && Math.abs(off - coils * coilMa) < coilMa / 4;
    if (!fits) {
      return String.format(
          Locale.ROOT,
          "it draws %.0f mA %s than a sound card would",
          Math.abs(off),
          off < 0 ? "less" : "more");
    }
    String words = number(Math.abs(coils)) + (off < 0 ? " fewer" : " more") + " than expected";
    List<Integer> names =
        IntStream.range(0, takes.length)
            .filter(i -> loads.get(i).kind() == RestLoad.Kind.COIL)
            .filter(i -> off < 0 ? takes[i] > 0 : takes[i] == 0)
            .filter(i -> off > 0 || filter.logMissing(i) > -CERTAIN)
            .boxed()
            .toList();
    boolean helps = names.size() >= Math.abs(coils) && names.size() <= MOST_NAMED;
    return words + (helps ? ": " + names(names, names.size() == Math.abs(coils)) : "");
  }

  private static String number(long coils) {
    return coils == 1 ? "one coil" : coils + " coils";
  }

  /** What has become certain with this vector, and where fewer candidates are left than before. */
  private List<SupplyFinding> findings(long vector) {
    List<SupplyFinding> found = new ArrayList<>();
    for (int f = 0; f < missing.size(); f++) {
      List<Integer> left = alike(without(f));
      if (left.size() < candidates.get(f).size()) {
        candidates.set(f, left);
        missing.set(f, best(left, without(f)));
        found.add(new SupplyFinding(vector, words(left)));
      }
    }
    Optional<Integer> next = certain();
    while (next.isPresent()) {
      int[] others = missing.stream().mapToInt(Integer::intValue).toArray();
      List<Integer> fit = alike(others);
      missing.add(best(fit, others));
      candidates.add(fit);
      found.add(new SupplyFinding(vector, words(fit)));
      next = certain();
    }
    return found;
  }

  private int[] without(int finding) {
    return IntStream.range(0, missing.size()).filter(i -> i != finding).map(missing::get).toArray();
  }

  /** One more load that is not there, beside those that are known not to be. */
  private Optional<Integer> certain() {
    int[] others = missing.stream().mapToInt(Integer::intValue).toArray();
    double wanted = CERTAIN + Math.log(loads.size());
    return named().filter(i -> !missing.contains(i) && gain(i, others) > wanted).findFirst();
  }

  private Stream<Integer> named() {
    return IntStream.range(0, loads.size()).filter(i -> !loads.get(i).name().isEmpty()).boxed();
  }

  private double gain(int load, int[] others) {
    int[] all = Arrays.copyOf(others, others.length + 1);
    all[others.length] = load;
    return filter.logMissing(all) - filter.logMissing(others);
  }

  /** All that fit about as well as the best. */
  private List<Integer> alike(int[] others) {
    List<Integer> free =
        named().filter(i -> IntStream.of(others).noneMatch(other -> other == i)).toList();
    double most = free.stream().mapToDouble(i -> gain(i, others)).max().orElse(0);
    return free.stream().filter(i -> gain(i, others) > most - AS_GOOD).toList();
  }

  private int best(List<Integer> among, int[] others) {
    int best = among.get(0);
    for (int one : among) {
      best = gain(one, others) > gain(best, others) ? one : best;
    }
    return best;
  }

  private String words(List<Integer> fit) {
    List<String> kinds =
        fit.stream().map(i -> loads.get(i).kind().word()).distinct().sorted().toList();
    return "one " + String.join(" or ", kinds) + " fewer than expected: " + names(fit);
  }

  private String names(List<Integer> of) {
    return names(of, false);
  }

  /**
   * @param all whether it is every one of them, else one or some
   */
  private String names(List<Integer> of, boolean all) {
    String text =
        of.stream()
            .limit(MOST_NAMED)
            .map(i -> loads.get(i).name())
            .collect(Collectors.joining(all ? " and " : " or "));
    return of.size() > MOST_NAMED
        ? text + " or one of " + (of.size() - MOST_NAMED) + " more"
        : text;
  }

  /** What is held to be missing now, the candidates of each in words. */
  public List<String> found() {
    return candidates.stream().map(this::words).toList();
  }

  private BitSet driven(Vector vector) {
    BitSet driven = new BitSet();
    for (Line line : card.lines()) {
      int b = line.busIndex();
      long on = vector.lastLevel()[b] & vector.lastEnabled()[b];
      driven.set(line.index(), (on >>> line.bit() & 1) != 0);
    }
    return driven;
  }
}
