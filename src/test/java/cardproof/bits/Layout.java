package cardproof.bits;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Writes a {@link Term} as text, with random spaces and with few or many parentheses. */
final class Layout {
  private static final int CHOICE = -1;
  private static final int PREFIX = 100;
  private static final int PRIMARY = 101;

  private final Random random;
  private final boolean full;
  private final int afterPrefix;
  private final List<String> pieces = new ArrayList<>();

  private Layout(Random random, boolean full, int afterPrefix) {
    this.random = random;
    this.full = full;
    this.afterPrefix = afterPrefix;
  }

  /**
   * @param full whether every operand stands in parentheses, or only those that have to
   */
  static String of(Term term, long seed, boolean full) {
    return of(term, new Layout(new Random(seed), full, PREFIX));
  }

  /** As {@link #of}, but a prefix never stands right after a prefix: Verilog wants a primary. */
  static String withSinglePrefixes(Term term, long seed, boolean full) {
    return of(term, new Layout(new Random(seed), full, PRIMARY));
  }

  private static String of(Term term, Layout layout) {
    layout.write(term, CHOICE);
    return layout.joined();
  }

  private static int level(Term term) {
    if (term instanceof Term.Choice) {
      return CHOICE;
    }
    if (term instanceof Term.Between between) {
      List<List<String>> levels = Term.levels();
      for (int level = 0; level < levels.size(); level++) {
        if (levels.get(level).contains(between.operator())) {
          return level;
        }
      }
      throw new IllegalArgumentException(between.operator());
    }
    return term instanceof Term.Before ? PREFIX : PRIMARY;
  }

  private void write(Term term, int loosest) {
    boolean parentheses = full || level(term) < loosest;
    if (parentheses) {
      pieces.add("(");
    }
    if (term instanceof Term.Line line) {
      pieces.add(line.name());
    } else if (term instanceof Term.Number number) {
      pieces.add(number.text());
    } else if (term instanceof Term.Unknown unknown) {
      pieces.add(unknown.text());
    } else if (term instanceof Term.Before before) {
      pieces.add(before.operator());
      write(before.operand(), afterPrefix);
    } else if (term instanceof Term.Between between) {
      write(between.left(), level(term));
      pieces.add(between.operator());
      write(between.right(), level(term) + 1);
    } else if (term instanceof Term.Choice choice) {
      write(choice.condition(), CHOICE + 1);
      pieces.add("?");
      write(choice.then(), CHOICE);
      pieces.add(":");
      write(choice.otherwise(), CHOICE);
    } else if (term instanceof Term.Joined joined) {
      write(joined);
    } else if (term instanceof Term.Picked picked) {
      pieces.addAll(List.of(picked.line().name(), "["));
      write(picked.index(), CHOICE);
      if (picked.width() > 1 || picked.down()) {
        pieces.addAll(List.of(picked.down() ? "-:" : "+:", count(picked.width())));
      }
      pieces.add("]");
    } else if (term instanceof Term.Range range) {
      pieces.addAll(
          List.of(range.line().name(), "[", count(range.high()), ":", count(range.low()), "]"));
    }
    if (parentheses) {
      pieces.add(")");
    }
  }

  private void write(Term.Joined joined) {
    boolean repeated = joined.times() > 1;
    pieces.addAll(repeated ? List.of("{", count(joined.times()), "{") : List.of("{"));
    for (int part = 0; part < joined.parts().size(); part++) {
      if (part > 0) {
        pieces.add(",");
      }
      write(joined.parts().get(part), CHOICE);
    }
    pieces.addAll(repeated ? List.of("}", "}") : List.of("}"));
  }

  /** A fixed number of places: plain, or as a constant expression. */
  private String count(int places) {
    int other = random.nextInt(places + 1);
    return switch (random.nextInt(4)) {
      case 0 -> other + " + " + (places - other);
      case 1 -> places + other + " - " + other;
      default -> "" + places;
    };
  }

  private String joined() {
    StringBuilder text = new StringBuilder(" ".repeat(random.nextInt(2)));
    String before = "(";
    for (String piece : pieces) {
      // two operators side by side could run into another one
      boolean apart = isOperator(before) && isOperator(piece);
      text.append(" ".repeat(random.nextInt(2) + (apart ? 1 : 0))).append(piece);
      before = piece;
    }
    return text.append(random.nextBoolean() ? "\n" : "").toString();
  }

  private static boolean isOperator(String piece) {
    return !Character.isLetterOrDigit(piece.charAt(0)) && !"()[]{},".contains(piece);
  }
}
