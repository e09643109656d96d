package cardproof.report;

import cardproof.card.Bus;
import cardproof.card.Card;
import cardproof.card.wiring.Net;
import cardproof.card.wiring.Wiring;
import cardproof.log.Verdict;
import java.io.IOException;
import java.io.OutputStream;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;

/**
 * A run as a Value Change Dump: what every line of a card did, and with which vector.
 *
 * <p>Scopes: {@code vector} with the number of the vector that is running, its verdict in letters
 * of 8 bits, and whether it failed; {@code lines} with every bus as the fixture sees it; {@code
 * drives} with what the fixture itself drives on shared buses; {@code nets} with those asked for;
 * {@code supply}; {@code fixture} where it is what a fixture saw. What is not known is x, as the
 * vector is before the first one.
 *
 * <p>A verdict stands over its own vector. So what moves during a vector is kept until its verdict
 * is final, which is when the next one has been judged; beyond {@value #MOST_KEPT} changes it is
 * written without. Times in nanoseconds, never going back. Not thread safe.
 */
public final class CardWave {
  static final int MOST_KEPT = 200_000;

  private static final int VERDICT_BITS = 8 * longestVerdict();

  private final VcdWriter writer;
  private final VectorSpans spans;
  private final List<WaveBit> lines = new ArrayList<>();
  private final WaveBit[] drives;
  private final WaveBit[] nets;
  private final List<VcdVariable> supply = new ArrayList<>();
  private final Optional<Watch> watch;

  /** How far the fixture itself saw it. */
  private record Watch(VcdVariable on, VcdVariable dropped) {}

  /**
   * @param out gets whole lines; is not closed here
   * @param program who writes, with its version
   * @param remarks about the run, for the head of the file
   * @param chosen numbers of nets in the card's wiring
   * @param measured whether {@link #supply} will be told
   */
  public CardWave(
      OutputStream out,
      Card card,
      String program,
      List<String> remarks,
      Collection<Integer> chosen,
      boolean measured) {
    this(out, card, program, remarks, chosen, measured, false);
  }

  /**
   * What a fixture saw: the lines, what it drove, and in a scope {@code fixture} whether it was
   * watching and how many edges it did not keep.
   */
  public static CardWave captured(
      OutputStream out, Card card, String program, List<String> remarks) {
    return new CardWave(out, card, program, remarks, List.of(), false, true);
  }

  private CardWave(
      OutputStream out,
      Card card,
      String program,
      List<String> remarks,
      Collection<Integer> chosen,
      boolean measured,
      boolean captured) {
    this.writer = new VcdWriter(out);
    writer.version(program);
    remarks.forEach(writer::comment);
    writer.openScope(card.name());
    writer.openScope("vector");
    VcdVariable number = writer.declare(VcdKind.INTEGER, "number", VcdKind.INTEGER_BITS);
    VcdVariable verdict = writer.declare(VcdKind.REG, "verdict", VERDICT_BITS);
    VcdVariable failed = writer.declare(VcdKind.REG, "failed", 1);
    writer.closeScope();
    this.spans = new VectorSpans(writer, number, verdict, failed);
    declareLines(card);
    this.drives = new WaveBit[card.lines().size()];
    declareDrives(card);
    List<Net> all = card.wiring().map(Wiring::nets).orElse(List.of());
    this.nets = new WaveBit[all.size()];
    declareNets(all, List.copyOf(chosen));
    if (measured) {
      writer.openScope("supply");
      supply.add(writer.declare(VcdKind.REAL, "volts", VcdKind.REAL_BITS));
      supply.add(writer.declare(VcdKind.REAL, "mA", VcdKind.REAL_BITS));
      writer.closeScope();
    }
    this.watch = captured ? Optional.of(declareWatch()) : Optional.empty();
    writer.begin(0);
  }

  private Watch declareWatch() {
    writer.openScope("fixture");
    Watch declared =
        new Watch(
            writer.declare(VcdKind.WIRE, "watching", 1),
            writer.declare(VcdKind.INTEGER, "dropped", VcdKind.INTEGER_BITS));
    writer.closeScope();
    return declared;
  }

  /** The fixture watches from now on, or does not; of a captured wave only. */
  public void watching(long nowNs, boolean on) throws IOException {
    spans.change(nowNs, watch.orElseThrow().on(), VcdValue.bit(on));
  }

  /** So many edges of the vector that is running were seen and not kept; a captured wave only. */
  public void dropped(long nowNs, long edges) throws IOException {
    spans.change(nowNs, watch.orElseThrow().dropped(), VcdValue.number(edges));
  }

  /** What a line is at from now on is not known. */
  public void lineUnknown(long nowNs, int line) throws IOException {
    WaveBit where = lines.get(line);
    spans.change(nowNs, where.group().variable(), where.group().unknown(where.bit()));
  }

  /** A line, by its index over the card, is at this level from now on. */
  public void line(long nowNs, int line, boolean level) throws IOException {
    change(nowNs, lines.get(line), level);
  }

  /** The fixture drives a line, or has released it. Of no interest unless it is shared. */
  public void driven(long nowNs, int line, boolean on) throws IOException {
    change(nowNs, drives[line], on);
  }

  /** A net of the wiring is at this level from now on. Of no interest unless it was chosen. */
  public void net(long nowNs, int net, boolean level) throws IOException {
    change(nowNs, shown(net), level);
  }

  /** A net of the wiring stands between the levels from now on. */
  public void netUnknown(long nowNs, int net) throws IOException {
    WaveBit where = shown(net);
    if (where != null) {
      spans.change(nowNs, where.group().variable(), where.group().unknown(where.bit()));
    }
  }

  /** What the supply gives from now on. */
  public void supply(long nowNs, long millivolts, long microamps) throws IOException {
    spans.change(nowNs, supply.get(0), VcdValue.real(millivolts / 1e3));
    spans.change(nowNs, supply.get(1), VcdValue.real(microamps / 1e3));
  }

  /**
   * @param number counted from 0; the file counts from 1, as reports do
   */
  public void vectorStarted(long nowNs, long number) throws IOException {
    spans.start(nowNs, number);
  }

  /** May be told again of the same vector as long as the next one has not been judged. */
  public void judged(long number, Verdict verdict) throws IOException {
    spans.judged(number, verdict);
  }

  /** Writes all that was kept, and until when it lasted. */
  public void end(long nowNs) throws IOException {
    spans.end(nowNs);
  }

  /** A fault may have brought nets that the card itself does not have. */
  private WaveBit shown(int net) {
    return net < nets.length ? nets[net] : null;
  }

  private void change(long nowNs, WaveBit where, boolean level) throws IOException {
    if (where != null) {
      BitGroup group = where.group();
      spans.change(nowNs, group.variable(), group.set(where.bit(), level));
    }
  }

  private void declareLines(Card card) {
    writer.openScope("lines");
    for (Bus bus : card.buses()) {
      BitGroup group = new BitGroup(writer.declare(VcdKind.WIRE, bus.name(), bus.width()));
      for (int bit = 0; bit < bus.width(); bit++) {
        lines.add(new WaveBit(group, bit));
      }
    }
    writer.closeScope();
  }

  private void declareDrives(Card card) {
    boolean open = false;
    for (int index = 0; index < card.buses().size(); index++) {
      Bus bus = card.buses().get(index);
      if (bus.role().driven() && bus.role().watched()) {
        if (!open) {
          writer.openScope("drives");
          open = true;
        }
        BitGroup group = new BitGroup(writer.declare(VcdKind.WIRE, bus.name(), bus.width()));
        for (int bit = 0; bit < bus.width(); bit++) {
          drives[card.firstLine(index) + bit] = new WaveBit(group, bit);
        }
      }
    }
    if (open) {
      writer.closeScope();
    }
  }

  private void declareNets(List<Net> all, List<Integer> chosen) {
    if (!chosen.isEmpty()) {
      writer.openScope("nets");
      NetVariables.declare(writer, all, chosen).forEach((net, bit) -> nets[net] = bit);
      writer.closeScope();
    }
  }

  private static int longestVerdict() {
    int longest = 0;
    for (Verdict verdict : Verdict.values()) {
      longest = Math.max(longest, verdict.word().length());
    }
    return longest;
  }
}
