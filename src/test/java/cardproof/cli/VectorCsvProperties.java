package cardproof.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** RFC 4180, section 2; the numbers are those of its rules. */
class VectorCsvProperties {
  /** Rules 5, 6 and 7, with the rules' own examples. */
  @Example
  void fieldsAreQuotedWhereTheRulesSaySo() {
    assertThat(VectorCsv.quoted("aaa")).isEqualTo("aaa");
    assertThat(VectorCsv.quoted("b\r\nbb")).isEqualTo("\"b\r\nbb\"");
    assertThat(VectorCsv.quoted("b\"bb")).isEqualTo("\"b\"\"bb\"");
    assertThat(VectorCsv.quoted("a,b")).isEqualTo("\"a,b\"");
    assertThat(VectorCsv.quoted("")).isEmpty();
  }

  /** Rules 1 to 4: CRLF after every record, a header, and as many fields in each. */
  @Example
  void everyRecordEndsWithCrLfAndHasAsManyFields() {
    Path plan = Path.of("src", "test", "resources", "cli", "weak.yaml");
    String csv = Cli.run("check", plan, "--list", "--csv").out();
    assertThat(csv).endsWith("\r\n");
    assertThat(csv.replace("\r\n", "")).doesNotContain("\r").doesNotContain("\n");
    List<List<String>> records = read(csv);
    assertThat(records).hasSize(13).allMatch(record -> record.size() == records.get(0).size());
    assertThat(records.get(0)).startsWith("vector", "at", "title").doesNotHaveDuplicates();
    assertThat(records.get(10)).contains("sums, and a \"tide\"");
  }

  @Property
  void whatIsQuotedIsReadBack(@ForAll List<String> cells) {
    List<String> quoted = cells.stream().map(VectorCsv::quoted).toList();
    List<String> wanted = cells.isEmpty() ? List.of("") : cells;
    assertThat(read(String.join(",", quoted) + "\r\n")).containsExactly(wanted);
  }

  /** The grammar of section 2, read strictly. */
  private static List<List<String>> read(String csv) {
    List<List<String>> records = new ArrayList<>();
    List<String> record = new ArrayList<>();
    StringBuilder cell = new StringBuilder();
    boolean quoted = false;
    for (int i = 0; i < csv.length(); i++) {
      char c = csv.charAt(i);
      if (quoted && c == '"' && i + 1 < csv.length() && csv.charAt(i + 1) == '"') {
        cell.append('"');
        i++;
      } else if (c == '"') {
        quoted = !quoted;
      } else if (!quoted && (c == ',' || c == '\r')) {
        record.add(cell.toString());
        cell.setLength(0);
        if (c == '\r') {
          assertThat(csv.charAt(++i)).isEqualTo('\n');
          records.add(record);
          record = new ArrayList<>();
        }
      } else {
        cell.append(c);
      }
    }
    assertThat(record).isEmpty();
    return records;
  }
}
