package cardproof.report;

import static org.assertj.core.api.Assertions.assertThat;

import cardproof.OutsideTools;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Others write what the tests' reader reads, and read what the writer writes: a Verilog simulator,
 * and the converters between VCD and another wave format of the Debian package gtkwave.
 */
class VcdOutsideTest {
  @TempDir private Path folder;

  @Test
  void theReaderUnderstandsAVerilogSimulator() throws Exception {
    OutsideTools.assumeInstalled("Verilog simulator", "iverilog", "iverilog", "vvp");
    Path source = folder.resolve("trial.v");
    Path dump = folder.resolve("trial.vcd");
    Files.writeString(
        source,
        """
        `timescale 1ns/1ns
        module trial;
          reg [3:0] s = 4'bxx01;
          reg \\+12V = 0;
          real mA = 0;
          initial begin
            $dumpfile("%s");
            $dumpvars;
            #20 s = 4'b0101;
            #5 \\+12V = 1; mA = 187.5;
            #5 s = 4'b1xxx;
            #10 $finish;
          end
        endmodule
        """
            .formatted(dump));
    Path compiled = folder.resolve("trial.vvp");
    Path said = folder.resolve("said.txt");
    OutsideTools.call(said, "iverilog", "-g2005", "-o", compiled.toString(), source.toString());
    OutsideTools.call(said, "vvp", "-n", compiled.toString());
    VcdFile file = VcdReader.read(Files.readString(dump));
    assertThat(file.tickNs()).isEqualTo(1);
    assertThat(file.signal("trial.s").values())
        .containsExactly(Map.entry(0L, "xx01"), Map.entry(20L, "0101"), Map.entry(30L, "1xxx"));
    assertThat(file.signal("trial.+12V").values()).containsEntry(0L, "0").containsEntry(25L, "1");
    assertThat(file.signal("trial.mA").at(30)).isEqualTo("187.5");
  }

  @Test
  void aConverterOfWavesGivesBackEveryEdge() throws Exception {
    OutsideTools.assumeInstalled("converter of waves", "gtkwave", "vcd2fst", "fst2vcd");
    String ours = wave();
    VcdFile there = VcdReader.read(ours);
    VcdFile back = VcdReader.read(throughTheConverter(ours));
    assertThat(back.tickNs()).isEqualTo(1);
    assertThat(back.signals().keySet()).isEqualTo(there.signals().keySet());
    assertThat(there.signals()).hasSizeGreaterThan(4);
    there
        .signals()
        .forEach(
            (name, signal) -> {
              VcdFile.Signal same = back.signal(name);
              assertThat(same.type()).as(name).isEqualTo(signal.type());
              assertThat(same.size()).as(name).isEqualTo(signal.size());
              assertThat(same.select()).as(name).isEqualTo(signal.select());
              assertThat(same.values()).as(name).isEqualTo(signal.values());
            });
    assertThat(back.endNs()).isEqualTo(there.endNs());
  }

  private String throughTheConverter(String ours) throws IOException, InterruptedException {
    Path vcd = Files.writeString(folder.resolve("ours.vcd"), ours);
    Path fst = folder.resolve("ours.fst");
    Path back = folder.resolve("back.vcd");
    Path said = folder.resolve("said.txt");
    OutsideTools.call(said, "vcd2fst", vcd.toString(), fst.toString());
    OutsideTools.call(back, "fst2vcd", fst.toString());
    return Files.readString(back);
  }

  /** Every kind of variable, names of every kind, and values from the first instant to the last. */
  private static String wave() throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    VcdWriter writer = new VcdWriter(out);
    writer.version("somebody");
    writer.openScope("sum");
    VcdVariable number = writer.declare(VcdKind.INTEGER, "number", 32);
    VcdVariable word = writer.declare(VcdKind.REG, "verdict", 72);
    VcdVariable volts = writer.declare(VcdKind.REAL, "volts", 64);
    writer.openScope("BIT[3]");
    VcdVariable odd = writer.declare(VcdKind.WIRE, "+odd", 1);
    VcdVariable wide = writer.declareRange(VcdKind.WIRE, "C", 12, 1);
    writer.begin(0);
    writer.change(0, volts, VcdValue.real(12));
    for (int i = 1; i <= 40; i++) {
      long ns = 1_000_003L * i;
      writer.change(ns, odd, VcdValue.bit(i % 3 == 0));
      writer.change(ns, wide, VcdValue.number(i * 97 % 4096));
      writer.change(ns, number, VcdValue.number(i));
      writer.change(ns, word, VcdValue.text(i % 2 == 0 ? "pass" : "unsettled"));
      writer.change(ns + 1, volts, VcdValue.real(12 - i / 8.0));
    }
    writer.end(50_000_000);
    String text = out.toString(StandardCharsets.US_ASCII);
    assertThat(text.toLowerCase(Locale.ROOT)).doesNotContain("nan");
    return text;
  }
}
