package cardproof.cli;

import cardproof.fixture.Plug;
import cardproof.fixture.selftest.Finding;
import cardproof.fixture.selftest.SelfTestResult;
import cardproof.fixture.selftest.Slow;
import cardproof.fixture.selftest.Span;
import cardproof.fixture.selftest.Unrest;
import cardproof.fixture.selftest.WireTimes;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;

/** The table of a self-test: a row for each wire that brings a drive or a watch not had before. */
final class SelftestRows {
  /**
   * @param verdict {@code ok}, or what is wrong with this drive or this watch
   */
  record Row(Plug.Join join, Optional<Span> rise, Optional<Span> fall, String verdict) {
    boolean ok() {
      return verdict.equals("ok");
    }
  }

  private final SelfTestResult result;

  SelftestRows(SelfTestResult result) {
    this.result = result;
  }

  List<Row> rows() {
    BitSet drives = new BitSet();
    BitSet watches = new BitSet();
    List<Row> rows = new ArrayList<>();
    for (WireTimes wire : result.delays().wires()) {
      Plug.Join join = wire.join();
      if (!drives.get(join.drive()) || !watches.get(join.watch())) {
        drives.set(join.drive());
        watches.set(join.watch());
        rows.add(new Row(join, wire.rise(), wire.fall(), verdict(join)));
      }
    }
    return rows;
  }

  private String verdict(Plug.Join join) {
    List<String> wrong = new ArrayList<>();
    for (Finding finding : result.findings()) {
      boolean drive = finding.drives().get(join.drive());
      boolean watch = finding.watches().get(join.watch());
      if (drive || watch) {
        wrong.add(finding.oneOf().size() == 1 ? finding.sentence() : "see below");
      }
    }
    for (Slow slow : result.delays().slow()) {
      if (slow.drive() == join.drive() || slow.watch() == join.watch()) {
        wrong.add(slow.sentence());
      }
    }
    for (Unrest unrest : result.unrest()) {
      if (unrest.join().equals(join)) {
        wrong.add(sentence(unrest));
      }
    }
    return wrong.isEmpty() ? "ok" : String.join("; ", wrong.stream().distinct().toList());
  }

  static String sentence(Unrest unrest) {
    String wire = "D" + unrest.join().drive() + " to W" + unrest.join().watch();
    String often = unrest.times() + " of " + unrest.of() + " times";
    return switch (unrest.kind()) {
      case GLITCH -> wire + " changed more than once, " + often;
      case MISSED -> wire + " did not come, " + often;
      case DISTURBED -> "W" + unrest.watch() + " moved with " + wire + ", " + often;
    };
  }
}
