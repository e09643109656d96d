package cardproof.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class VcdWriterTest {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final VcdWriter writer = new VcdWriter(out);

  private String text() {
    return out.toString(StandardCharsets.US_ASCII);
  }

  private VcdFile read() {
    return VcdReader.read(text());
  }

  /** Forms as IEEE 1364-2005, 18.2.1 gives them: no blank for one bit, one for a vector or real. */
  @Test
  void writesWhatTheGrammarHas() throws IOException {
    writer.openScope("top");
    VcdVariable bit = writer.declare(VcdKind.WIRE, "CI", 1);
    VcdVariable word = writer.declare(VcdKind.REG, "S", 4);
    VcdVariable number = writer.declare(VcdKind.INTEGER, "n", 32);
    VcdVariable amps = writer.declare(VcdKind.REAL, "mA", 64);
    writer.begin(0);
    writer.change(0, bit, VcdValue.bit(false));
    writer.change(0, amps, VcdValue.real(0));
    writer.change(1500, word, VcdValue.bits("0101"));
    writer.change(1500, amps, VcdValue.real(187.5));
    writer.change(2000, number, VcdValue.number(12));
    writer.end(9000);
    assertThat(text())
        .isEqualTo(
            """
            $timescale 1 ns $end
            $scope module top $end
            $var wire 1 ! CI $end
            $var reg 4 " S [3:0] $end
            $var integer 32 # n $end
            $var real 64 $ mA $end
            $upscope $end
            $enddefinitions $end
            #0
            $dumpvars
            0!
            bx "
            bx #
            r0.0 $
            $end
            #1500
            b101 "
            r187.5 $
            #2000
            b1100 #
            #9000
            """);
    assertThat(read().signal("top.S").values())
        .containsEntry(0L, "xxxx")
        .containsEntry(1500L, "0101");
    assertThat(read().endNs()).isEqualTo(9000);
  }

  @Test
  void theLastValueOfAnInstantCountsAndNoneIsRepeated() throws IOException {
    writer.openScope("top");
    VcdVariable bit = writer.declare(VcdKind.WIRE, "a", 1);
    writer.begin(5);
    writer.change(5, bit, VcdValue.bit(true));
    writer.change(7, bit, VcdValue.bit(false));
    writer.change(7, bit, VcdValue.bit(true));
    writer.change(8, bit, VcdValue.bit(true));
    writer.change(9, bit, VcdValue.bit(false));
    writer.end(9);
    assertThat(read().signal("top.a").values())
        .containsExactly(java.util.Map.entry(5L, "1"), java.util.Map.entry(9L, "0"));
    assertThat(text()).doesNotContain("#7", "#8").endsWith("#9\n0!\n");
  }

  @Test
  void namesThatAreNoIdentifiersAreEscaped() throws IOException {
    writer.openScope("sum card/2");
    writer.openScope("BIT[3]");
    writer.declare(VcdKind.WIRE, "+12V", 1);
    writer.declare(VcdKind.WIRE, "3rd", 1);
    writer.declare(VcdKind.WIRE, "W[7]", 12);
    writer.declareBit(VcdKind.WIRE, "C", 4);
    writer.declareRange(VcdKind.WIRE, "C-2", 9, 4);
    writer.declare(VcdKind.WIRE, "pegel_ü", 1);
    writer.declare(VcdKind.WIRE, "_a$1", 1);
    writer.begin(0);
    writer.end(0);
    assertThat(text())
        .contains("$scope module \\sum_card/2 $end", "! \\+12V $end", "# \\W[7] [11:0] $end")
        .contains("$ C [4] $end", "& \\pegel__ $end")
        .contains("' _a$1 $end");
    assertThat(read().signals().keySet())
        .contains("sum_card/2.BIT[3].+12V", "sum_card/2.BIT[3].C[4]", "sum_card/2.BIT[3].C-2");
    assertThat(read().signal("sum_card/2.BIT[3].W[7]").size()).isEqualTo(12);
  }

  @Test
  void nothingInATextEndsItsCommand() throws IOException {
    writer.comment("a title with $end in it\nand a second line");
    writer.openScope("top");
    writer.begin(0);
    writer.end(0);
    assertThat(read().comments()).containsExactly("a title with $ end in it and a second line");
  }

  @Test
  void codesArePrintableAndAllDiffer() {
    List<String> codes = new ArrayList<>();
    for (int number = 0; number < 20_000; number++) {
      codes.add(VcdNames.code(number));
    }
    assertThat(codes).doesNotHaveDuplicates().allMatch(code -> code.matches("[!-~]{1,3}"));
    assertThat(codes.get(93)).isEqualTo("~");
    assertThat(codes.get(94)).isEqualTo("!!");
  }

  /** Killed after any call, the file can be read as far as it goes. */
  @Test
  void theStreamGetsWholeLines() throws IOException {
    List<byte[]> pieces = new ArrayList<>();
    OutputStream pieceByPiece =
        new OutputStream() {
          @Override
          public void write(int b) {
            throw new AssertionError("a single byte");
          }

          @Override
          public void write(byte[] bytes, int from, int length) {
            pieces.add(java.util.Arrays.copyOfRange(bytes, from, from + length));
          }
        };
    VcdWriter streaming = new VcdWriter(pieceByPiece);
    streaming.openScope("top");
    VcdVariable word = streaming.declare(VcdKind.WIRE, "w", 40);
    streaming.begin(0);
    for (int i = 0; i < 50_000; i++) {
      streaming.change(i, word, VcdValue.number(i * 77_777L % (1L << 40)));
    }
    assertThat(pieces).hasSizeGreaterThan(5);
    StringBuilder soFar = new StringBuilder();
    for (byte[] piece : pieces) {
      soFar.append(new String(piece, StandardCharsets.US_ASCII));
      assertThat(soFar).endsWith("\n");
      VcdReader.read(soFar.toString());
    }
    streaming.end(60_000);
    assertThat(pieces.get(pieces.size() - 1)).asString().endsWith("#60000\n");
  }

  @Test
  void refusesWhatWouldBeNoWave() throws IOException {
    assertThatThrownBy(() -> writer.declare(VcdKind.WIRE, "a", 1))
        .isInstanceOf(IllegalStateException.class);
    writer.openScope("top");
    VcdVariable word = writer.declare(VcdKind.WIRE, "w", 2);
    assertThatThrownBy(() -> writer.declare(VcdKind.INTEGER, "n", 16))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> writer.change(0, word, VcdValue.number(1)))
        .isInstanceOf(IllegalStateException.class);
    writer.begin(100);
    assertThatThrownBy(() -> writer.declare(VcdKind.WIRE, "late", 1))
        .isInstanceOf(IllegalStateException.class);
    assertThatThrownBy(() -> writer.change(99, word, VcdValue.number(1)))
        .hasMessage("time goes back from 100 to 99");
    assertThatThrownBy(() -> writer.change(100, word, VcdValue.number(4)))
        .hasMessage("100 for a wire of 2 bits");
    assertThatThrownBy(() -> writer.change(100, word, VcdValue.real(1)))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> VcdValue.real(Double.NaN)).hasMessage("no finite number: NaN");
  }
}
