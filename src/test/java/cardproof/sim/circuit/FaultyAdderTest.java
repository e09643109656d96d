package cardproof.sim.circuit;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.card.fault.FaultKind;
import cardproof.card.fault.FaultList;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What faults do to a 12-bit adder that is simulated from its wiring. */
class FaultyAdderTest {
  private static final FaultyAdder ADDER = new FaultyAdder(12);
  private static final long SECOND_NS = 1_000_000_000L;

  /**
   * By hand. In bit 0, {@code one} is A ? N[0] : C[0], {@code other} is A ? C[0] : N[0], the sum is
   * B ? other : one, and with no carry in N[0] is fed.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          A[0] joint missing                          | 1    | 0 | 0 | 0
          BIT[0].A.com1 joint missing                 | 1    | 0 | 0 | 0
          BIT[0].A.coil2 joint missing                | 1    | 0 | 0 | 0
          BIT[0].A coil open                          | 1    | 0 | 0 | 0
          BIT[0].A.no1 never makes                    | 1    | 0 | 0 | 0
          BIT[0].A.no1 welded                         | 0    | 0 | 0 | 1
          BIT[0].A.nc1 welded                         | 1    | 0 | 0 | 0
          BIT[0].A.no1 exchanged with BIT[0].A.nc1    | 0    | 0 | 0 | 1
          A[0] exchanged with A[1]                    | 1    | 0 | 0 | 2
          S[0] exchanged with S[1]                    | 1    | 0 | 0 | 2
          A[0] bridged to A[1]                        | 1    | 0 | 0 | 3
          S[0] bridged to S[1]                        | 1    | 0 | 0 | 3
          BIT[0].one bridged to BIT[0].other          | 0    | 0 | 0 | 1
          A[0] stuck at ground                        | 1    | 0 | 0 | 0
          A[0] stuck at supply                        | 0    | 0 | 0 | 1
          S[0] stuck at ground                        | 1    | 0 | 0 | 0
          S[0] stuck at supply                        | 0    | 0 | 0 | 1
          net BIT[0].one stuck at ground              | 1    | 0 | 0 | 0
          net BIT[0].one stuck at supply              | 0    | 0 | 0 | 1
          net C[1] stuck at supply                    | 0    | 0 | 0 | 2
          F1 open                                     | 1    | 0 | 0 | 0
          W1 open                                     | 4095 | 1 | 0 | 0
          K0 coil open                                | 0    | 0 | 1 | 0
          """)
  void addsUpWrongly(String fault, long a, long b, long carry, long sum) {
    RelayCircuit sound = ADDER.circuit(1);
    sound.drive(0, ADDER.word(a, b, carry));
    sound.advance(SECOND_NS);
    assertThat(ADDER.sum(sound)).isEqualTo(a + b + carry);

    RelayCircuit faulty = ADDER.circuit(1, fault);
    faulty.drive(0, ADDER.word(a, b, carry));
    faulty.advance(SECOND_NS);
    assertThat(ADDER.sum(faulty)).isEqualTo(sum).isNotEqualTo(a + b + carry);
    assertThat(faulty.supplyTripped()).isFalse();
  }

  /** A driven coil with a wire, or a diode forward, across it is a short. */
  @ParameterizedTest
  @CsvSource({
    "BIT[0].A.flyback short",
    "BIT[0].A.flyback backwards",
    "BIT[0].A.coil1 bridged to BIT[0].A.coil2",
    "A[0] bridged to GND",
    "GND bridged to +12V"
  })
  void tripsTheSupply(String fault) {
    RelayCircuit faulty = ADDER.circuit(1, fault);
    faulty.drive(0, ADDER.word(1, 0, 0));
    faulty.advance(SECOND_NS);
    assertThat(faulty.supplyTripped()).isTrue();
  }

  /**
   * With nothing across its coil the relay has let go after 8 to 12 ms, with the diode after 14.4
   * to 21.6, and its normally open contact, which S[0] hangs on, opens a little before that. Relays
   * A and E share a line, and so each has the diode of the other; B is alone with its own.
   */
  @Test
  void anOpenFlybackDiodeOnlyShowsAsAFasterRelease() {
    long soundUs = fallUs(ADDER.circuit(1), 0, 1);
    long fastUs = fallUs(ADDER.circuit(1, "BIT[0].B.flyback open"), 0, 1);
    assertThat(soundUs).isBetween(12_000L, 21_600L);
    assertThat(fastUs).isBetween(6_000L, 12_000L).isBetween(soundUs * 45 / 100, soundUs * 70 / 100);
    assertThat(fallUs(ADDER.circuit(1, "BIT[0].A.flyback open"), 1, 0))
        .isEqualTo(fallUs(ADDER.circuit(1), 1, 0));
  }

  /** Time from the release of inputs to the fall of S[0]. */
  private static long fallUs(RelayCircuit circuit, long a, long b) {
    circuit.drive(0, ADDER.word(a, b, 0));
    circuit.advance(SECOND_NS);
    assertThat(ADDER.sum(circuit)).isEqualTo(1);
    List<Edge> edges = listen(circuit);
    circuit.drive(SECOND_NS, ADDER.word(0, 0, 0));
    circuit.advance(2 * SECOND_NS);
    assertThat(ADDER.sum(circuit)).isZero();
    return (edges.get(0).atNs() - SECOND_NS) / 1000;
  }

  /** 40 mA less out of the supply, and nothing else. */
  @Test
  void aDeadLampOnlyShowsInTheCurrent() {
    RelayCircuit sound = ADDER.circuit(1);
    RelayCircuit faulty = ADDER.circuit(1, "BIT[0].L dead");
    for (RelayCircuit circuit : List.of(sound, faulty)) {
      circuit.drive(0, ADDER.word(1, 0, 0));
      circuit.advance(SECOND_NS);
      assertThat(ADDER.sum(circuit)).isEqualTo(1);
    }
    assertThat(sound.supplyMicroamps() - faulty.supplyMicroamps()).isBetween(39_900L, 40_100L);
  }

  @Test
  void aSlowRelayIsSlowerByThatMuch() {
    RelayCircuit sound = ADDER.circuit(1);
    RelayCircuit slow = ADDER.circuit(1, "K0 slow by 50 ms");
    assertThat(firstRiseNs(slow) - firstRiseNs(sound)).isEqualTo(50_000_000);
  }

  /** From the drive of the carry in to the first rise of S[0], which K0 alone makes. */
  private static long firstRiseNs(RelayCircuit circuit) {
    List<Edge> edges = listen(circuit);
    circuit.drive(0, ADDER.word(0, 0, 1));
    circuit.advance(SECOND_NS);
    assertThat(ADDER.sum(circuit)).isEqualTo(1);
    return edges.get(0).atNs();
  }

  /** Half the time the coil is open: the sum is then 0, else 1; both are seen, at 40 spells. */
  @Test
  void whatComesAndGoesIsSeenComingAndGoing() {
    RelayCircuit faulty = ADDER.circuit(1, "BIT[0].A coil open, in 50 % of spells of 500 ms");
    faulty.drive(0, ADDER.word(1, 0, 0));
    int wrong = 0;
    for (int spell = 0; spell < 40; spell++) {
      faulty.advance((spell * 500L + 400) * 1_000_000);
      wrong += ADDER.sum(faulty) == 1 ? 0 : 1;
    }
    // 2 of 40 or fewer, either way, would come by chance in 1 of a thousand million
    assertThat(wrong).isBetween(3, 37);
  }

  @Test
  void aStuckLineThatComesAndGoesMakesNoShort() {
    RelayCircuit faulty = ADDER.circuit(1, "A[0] stuck at ground, in 50 % of spells of 50 ms");
    faulty.drive(0, ADDER.word(1, 0, 0));
    faulty.advance(10 * SECOND_NS);
    assertThat(faulty.supplyTripped()).isFalse();
    assertThat(faulty.warnings().shortGlitches()).isZero();
  }

  private record Edge(long atNs, int line) {}

  /** Movements of S and CO, S[0] as line 0. */
  private static List<Edge> listen(RelayCircuit circuit) {
    List<Edge> edges = new ArrayList<>();
    int s0 = ADDER.card.firstLine(ADDER.card.busIndex("S"));
    circuit.onChange(
        line -> {
          if (line >= s0) {
            edges.add(new Edge(circuit.nowNs(), line - s0));
          }
        });
    return edges;
  }

  /**
   * The carries only go upward, so a fault in bit 5 that joins nothing leaves each movement of bits
   * 0 to 4 where it was, to the nanosecond, bounce and all.
   */
  @ParameterizedTest
  @CsvSource({
    "BIT[5].A coil open",
    "BIT[5].B.no2 never makes",
    "BIT[5].A.com4 joint missing",
    "BIT[5].B.flyback open",
    "BIT[5].L dead",
    "BIT[5].E slow by 20 ms",
    "A[5] joint missing",
    "'BIT[5].A.com1 joint missing, in 50 % of spells of 5 ms'"
  })
  void aFaultLeavesTheOtherRelaysTimesAlone(String fault) {
    assertThat(lowEdges(ADDER.circuit(1, fault)))
        .hasSizeGreaterThan(100)
        .isEqualTo(lowEdges(ADDER.circuit(1)));
    assertThat(lowEdges(ADDER.circuit(2))).isNotEqualTo(lowEdges(ADDER.circuit(1)));
  }

  private static List<Edge> lowEdges(RelayCircuit circuit) {
    List<Edge> edges = listen(circuit);
    long nowNs = 0;
    for (long[] vector : ADDER.vectors(7, 20)) {
      circuit.drive(nowNs, ADDER.word(vector[0], vector[1], vector[2]));
      nowNs += SECOND_NS;
      circuit.advance(nowNs);
    }
    return edges.stream().filter(edge -> edge.line() < 5).toList();
  }

  /** Faults that no sum can show, by name, and why; LAST is the last bit, TOP the rail above. */
  private static final Map<String, String> UNSEEN =
      Map.of(
          ".*flyback(\\.(anode|cathode) joint missing| open)", "only a faster release",
          ".*L(C|\\.[12]|C\\.[12])?( joint missing| dead)", "only a dark lamp",
          "net \\+12V stuck at supply", "only a fuse that is not in the way",
          ".*\\.E\\.com2 exchanged with .*\\.E\\.nc2", "a contact conducts both ways",
          "BIT\\[LAST]\\.(A\\.(com|no|nc)4|E\\.(com|no|nc)2|B\\.(com|no|nc)3) .*",
              "no use of N[TOP]",
          "BIT\\[LAST]\\.(A\\.nc3|E\\.no1|B\\.no2) .*", "the other end is of no use",
          "net (BIT\\[LAST]\\.none[01]|N\\[TOP]) stuck at .*", "no use of N[TOP]");

  private static Predicate<String> unseen(int bits) {
    String all =
        String.join("|", UNSEEN.keySet())
            .replace("LAST", "" + (bits - 1))
            .replace("TOP", "" + bits);
    return Pattern.compile(all).asMatchPredicate();
  }

  private static void eachFaultIsFoundOrCannotBeSeen(int bits, int random) {
    FaultyAdder adder = new FaultyAdder(bits);
    List<long[]> vectors = adder.vectors(5, random);
    assertThat(adder.firstWrong(adder.circuit(1), vectors)).isEqualTo(-1);
    Map<FaultKind, int[]> counts = new TreeMap<>();
    List<String> missed = new ArrayList<>();
    FaultList.of(adder.card)
        .all()
        .forEach(
            fault -> {
              boolean found = adder.firstWrong(adder.circuit(List.of(fault), 1), vectors) >= 0;
              counts.computeIfAbsent(fault.kind(), kind -> new int[2])[found ? 0 : 1]++;
              if (!found) {
                missed.add(fault.name());
              }
            });
    assertThat(missed).allMatch(unseen(bits));
    assertThat(counts.get(FaultKind.DIODE_OPEN)[0]).isZero();
    assertThat(counts.get(FaultKind.LAMP_DEAD)[0]).isZero();
    for (FaultKind kind :
        List.of(
            FaultKind.COIL_OPEN,
            FaultKind.LINE_STUCK,
            FaultKind.DIODE_SHORT,
            FaultKind.DIODE_BACKWARDS,
            FaultKind.FUSE_OPEN,
            FaultKind.WIRE_OPEN)) {
      assertThat(counts.get(kind)[1]).as(kind.toString()).isZero();
    }
  }

  @Test
  void eachFaultOfAShortAdderIsFoundOrCannotBeSeen() {
    eachFaultIsFoundOrCannotBeSeen(3, 200);
  }

  @Test
  @Tag("long")
  void eachFaultOfALongAdderIsFoundOrCannotBeSeen() {
    eachFaultIsFoundOrCannotBeSeen(12, 400);
  }
}
