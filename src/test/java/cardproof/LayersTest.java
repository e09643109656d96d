package cardproof;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.dependencies.SlicesRuleDefinition;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** Holds the layers: which package may use which. DEVELOPERS.md shows the same as a picture. */
class LayersTest {
  private static final Map<String, Set<String>> MAY_USE = new TreeMap<>();

  static {
    MAY_USE.put("text", Set.of());
    MAY_USE.put("bits", Set.of());
    MAY_USE.put("card", Set.of("bits"));
    MAY_USE.put("plan", Set.of("bits", "card"));
    MAY_USE.put("link", Set.of("bits"));
    MAY_USE.put("fixture", Set.of("bits", "card", "link"));
    MAY_USE.put("files", Set.of("bits", "card", "plan", "fixture"));
    MAY_USE.put("sim", Set.of("bits", "card", "link"));
    MAY_USE.put("log", Set.of("bits"));
    MAY_USE.put("run", Set.of("bits", "card", "plan", "link", "fixture", "log"));
    MAY_USE.put("timing", Set.of("bits", "card", "log"));
    MAY_USE.put("report", Set.of("bits", "card", "log", "timing"));
    MAY_USE.put(
        "cli",
        Set.of(
            "bits", "card", "plan", "link", "fixture", "files", "sim", "log", "run", "timing",
            "report"));
  }

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("cardproof");

  @Test
  void everyPackageIsInTheTableAndThereIsSomethingToLookAt() {
    assertThat(CLASSES.size()).isGreaterThan(150);
    Set<String> found =
        CLASSES.stream()
            .map(c -> c.getPackageName().split("\\.", 3))
            .filter(parts -> parts.length > 1)
            .map(parts -> parts[1])
            .collect(Collectors.toSet());
    assertThat(found).isEqualTo(MAY_USE.keySet());
  }

  @Test
  void eachPackageUsesOnlyWhatItMay() {
    MAY_USE.forEach(
        (name, allowed) -> {
          List<String> forbidden = new ArrayList<>();
          for (String other : MAY_USE.keySet()) {
            if (!other.equals(name) && !other.equals("text") && !allowed.contains(other)) {
              forbidden.add("cardproof." + other + "..");
            }
          }
          if (!forbidden.isEmpty()) {
            noClasses()
                .that()
                .resideInAPackage("cardproof." + name + "..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(forbidden.toArray(String[]::new))
                .check(CLASSES);
          }
        });
  }

  @Test
  void thereAreNoCircles() {
    SlicesRuleDefinition.slices()
        .matching("cardproof.(*)..")
        .should()
        .beFreeOfCycles()
        .check(CLASSES);
  }

  @Test
  void librariesStayBehindTheirOwnDoor() {
    onlyIn("org.yaml.snakeyaml..", "cardproof.files..");
    onlyIn(
        "org.apache.commons.csv..", "cardproof.files..", "cardproof.report..", "cardproof.cli..");
    onlyIn("com.fazecast..", "cardproof.link.serial..");
    onlyIn("picocli..", "cardproof.cli..");
    onlyIn("java.sql..", "cardproof.log..");
  }

  @Test
  void onlyTheCommandsSpeakOnStandardStreamsOrExit() {
    noClasses()
        .that()
        .resideOutsideOfPackage("cardproof.cli..")
        .should()
        .accessField(System.class, "out")
        .orShould()
        .accessField(System.class, "err")
        .orShould()
        .callMethod(System.class, "exit", int.class)
        .check(CLASSES);
  }

  private static void onlyIn(String library, String... doors) {
    noClasses()
        .that()
        .resideOutsideOfPackages(doors)
        .should()
        .dependOnClassesThat()
        .resideInAPackage(library)
        .check(CLASSES);
  }
}
