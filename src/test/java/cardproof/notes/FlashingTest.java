package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * The fuses of flashing.md say what the page says that they do, and go with what the Makefile takes
 * as flash. Bits: ATmega2560 and ATmega328P data sheets, memory programming, fuse bytes; 0 is
 * programmed (from memory).
 */
class FlashingTest {
  private static final Page PAGE = Page.read("flashing.md");
  private static final Path CODE = Page.FOLDER.resolve("reference");
  private static final int EESAVE = 3;
  private static final int SPIEN = 5;
  private static final int JTAGEN = 6; // DWEN, the debugger's wire, on the ATmega328P
  private static final int OCDEN = 7; // RSTDISBL there: reset as a pin

  private static boolean programmed(int fuse, int bit) {
    return (fuse & 1 << bit) == 0;
  }

  @Test
  void everyFuseByteLeavesTheChipWithinReachOfAProgrammer() {
    Page.Table table = PAGE.table("Fuses", "chip");
    assertThat(table.rows()).hasSize(2);
    for (List<String> row : table.rows()) {
      assertThat(row.get(1)).as("crystal, no divided clock").isEqualTo("0xFF");
      for (String cell : row.subList(2, 4)) {
        int high = Integer.decode(cell);
        assertThat(programmed(high, SPIEN)).as("serial programming").isTrue();
        assertThat(programmed(high, JTAGEN)).as("JTAG, debug wire").isFalse();
        assertThat(programmed(high, OCDEN)).as("on-chip debug, reset as a pin").isFalse();
      }
      assertThat(Integer.decode(row.get(4)) & 7).as("brown-out at 4.3 V").isEqualTo(4);
    }
  }

  @Test
  void bootSectionsAreThoseThatTheMakefileLeavesFree() throws IOException {
    List<List<String>> rows = PAGE.table("Fuses", "chip").rows();
    String makefile = Files.readString(CODE.resolve("Makefile"));
    int[] flash = {256 * 1024, 32 * 1024};
    int[] largestBoot = {8192, 4096};
    String[] builds = {"m2560", "m328p"};
    for (int i = 0; i < builds.length; i++) {
      int with = Integer.decode(rows.get(i).get(2));
      int without = Integer.decode(rows.get(i).get(3));
      assertThat(with & 1).as("starts in the boot loader").isZero();
      assertThat(without & 1).as("starts in the program").isOne();
      int boot = largestBoot[i] >> (with >> 1 & 3);
      assertThat(makefile).contains("FLASH_" + builds[i] + " := " + (flash[i] - boot));
    }
  }

  @Test
  void fusesThatKeepTheEepromDifferInThatBitAlone() {
    Matcher kept =
        Pattern.compile(
                "EESAVE as well: high (0x..) or (0x..) for the ATmega2560, (0x..) or (0x..) for")
            .matcher(PAGE.text().replaceAll("\\s+", " "));
    assertThat(kept.find()).isTrue();
    List<Integer> highs = new ArrayList<>();
    for (List<String> row : PAGE.table("Fuses", "chip").rows()) {
      highs.add(Integer.decode(row.get(2)));
      highs.add(Integer.decode(row.get(3)));
    }
    for (int i = 0; i < highs.size(); i++) {
      assertThat(Integer.decode(kept.group(i + 1))).isEqualTo(highs.get(i) & ~(1 << EESAVE));
    }
  }

  @Test
  void boardIdLiesWhereTheCodeLooks() throws IOException {
    String code = Files.readString(CODE.resolve("avr").resolve("boot.c"));
    Matcher at = Pattern.compile("#define ID_AT \\(\\(const void \\*\\)(\\d+)\\)").matcher(code);
    Matcher bytes = Pattern.compile("#define ID_BYTES (\\d+)").matcher(code);
    assertThat(at.find() && bytes.find()).isTrue();
    Matcher write = Pattern.compile("write eeprom (\\d+) ((?: \\d+)+)").matcher(PAGE.text());
    assertThat(write.find()).isTrue();
    assertThat(write.group(1)).isEqualTo(at.group(1));
    assertThat(write.group(2).strip().split(" ")).hasSize(Integer.parseInt(bytes.group(1)));
  }

  /** Speeds of boot loaders are named, and the one that must not be is only ever forbidden. */
  @Test
  void nobodyIsToldToOpenAt1200Baud() {
    assertThat(PAGE.text()).contains("Never open the port at 1200 baud").doesNotContain("-b 1200");
  }
}
