package cardproof.card.fault;

import cardproof.card.Card;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.List;

/**
 * The grammar of fault names.
 *
 * <pre>
 *   LINE stuck at ground             net NET stuck at ground
 *   LINE stuck at supply             net NET stuck at supply
 *   LINE exchanged with LINE         TERMINAL exchanged with TERMINAL
 *   TERMINAL joint missing           LINE joint missing      PIN joint missing
 *   PLACE bridged to PLACE           a place is a line, a pin, a terminal or a net
 *   TERMINAL never makes             TERMINAL welded         of a relay, no or nc
 *   RELAY coil open                  RELAY slow by 20 ms     RELAY slow by 50 %
 *   DIODE open                       DIODE short             DIODE backwards
 *   LAMP dead          FUSE open     RESISTOR open           WIRE open
 *   any but slow, in 10 % of spells of 5 ms
 * </pre>
 *
 * where LINE is a line's name ({@code S[3]}, {@code CI}), its printed label or its pin ({@code
 * J2.7}); PIN one of the supply; TERMINAL is a part and its terminal ({@code K3.no2}, {@code
 * BIT[3].A.coil1}), which may be called by the marking on the socket ({@code K3.24}, {@code
 * K3.A1}); and {@code net} may be left out where the name means nothing else. Parts and nets go by
 * their full names. Case and the amount of white space between words do not matter outside names.
 * Without wiring only lines can be faulty, and only stuck or exchanged.
 */
public final class FaultNames {
  /** What can be asked of any card, for help and errors. */
  public static final String LINE_FORMS =
      "'S[3] stuck at ground', 'A[2] exchanged with A[3]' or 'S[3] stuck at supply'";

  /** What can be asked of a card with wiring besides. */
  public static final String WIRING_FORMS =
      "'K3 coil open', 'K3.no2 never makes', 'K3.no2 welded', 'K3.com2 joint missing',"
          + " 'J2.7 joint missing', 'A[2] bridged to A[3]', 'K3.no1 exchanged with K3.nc1',"
          + " 'net X stuck at ground', 'D4 open', 'D4 short', 'D4 backwards', 'L1 dead',"
          + " 'F1 open', 'R1 open', 'W1 open' or 'K3 slow by 20 ms'";

  private FaultNames() {}

  /**
   * @throws RefusedException when the name does not parse, names something that does not exist, or
   *     asks of a thing what cannot be; says what was wanted and the nearest known names
   */
  public static Fault parse(String text, Card card) {
    return new FaultReader(text, card).read();
  }

  /**
   * Several faults of one unit, in the order given.
   *
   * @throws RefusedException with the problems of all of them; also when one is given twice, or two
   *     cannot both be
   */
  public static List<Fault> parseAll(List<String> texts, Card card) {
    List<Problem> problems = new ArrayList<>();
    List<Fault> faults = new ArrayList<>();
    for (String text : texts) {
      try {
        Fault fault = parse(text, card);
        faults.stream()
            .flatMap(other -> Clashes.between(other, fault).stream())
            .findFirst()
            .ifPresentOrElse(problems::add, () -> faults.add(fault));
      } catch (RefusedException refused) {
        problems.addAll(refused.problems());
      }
    }
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    return faults;
  }
}
