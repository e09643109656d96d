package cardproof.notes;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/**
 * The drawings stand alone, can be read by somebody who does not see them, and say the same values
 * as the pages. What an SVG file needs for that (role, title and desc first, named by
 * aria-labelledby): W3C, SVG Accessibility API Mappings, from memory.
 */
class DrawingsTest {
  private static final Path FOLDER = Page.FOLDER.resolve("drawings");
  private static final List<Page> PAGES =
      Stream.of("wiring.md", "boards.md", "flashing.md").map(Page::read).toList();
  private static final Pattern PICTURE = Pattern.compile("!\\[([^]]+)]\\(drawings/([^)]+)\\)");
  private static final Pattern VALUE =
      Pattern.compile(
          "\\b[\\d.]+ (?:k?ohm|nF|uF|W|V|A)\\b|\\b(?:[A-Z]{2,}|1N|2N)\\d{2,}[A-Z]?\\d?\\b");
  private static final int SMALLEST_LETTERS = 11;
  private static final int SHORTEST_DESCRIPTION = 150;

  @TestFactory
  List<DynamicTest> everyDrawing() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      List<DynamicTest> tests =
          files
              .sorted()
              .map(
                  file -> DynamicTest.dynamicTest(file.getFileName().toString(), () -> check(file)))
              .toList();
      assertThat(tests).hasSizeGreaterThanOrEqualTo(10);
      return tests;
    }
  }

  private static Document parse(Path file) throws Exception {
    DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
    factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
    factory.setNamespaceAware(true);
    return factory.newDocumentBuilder().parse(file.toFile());
  }

  private static void check(Path file) throws Exception {
    Element svg = parse(file).getDocumentElement();
    assertThat(svg.getNamespaceURI()).isEqualTo("http://www.w3.org/2000/svg");
    assertThat(svg.getLocalName()).isEqualTo("svg");
    assertThat(svg.getAttribute("role")).isEqualTo("img");
    List<Element> children = elements(svg.getChildNodes());
    assertThat(children.stream().limit(3).map(Element::getLocalName))
        .containsExactly("title", "desc", "rect");
    assertThat(svg.getAttribute("aria-labelledby").split(" "))
        .containsExactly(children.get(0).getAttribute("id"), children.get(1).getAttribute("id"));
    assertThat(children.get(0).getTextContent()).isNotBlank();
    assertThat(children.get(1).getTextContent()).hasSizeGreaterThan(SHORTEST_DESCRIPTION);
    ground(svg, children.get(2));
    letters(svg);
    assertThat(Files.readString(file))
        .as("nothing from elsewhere, nothing that runs")
        .doesNotContain("href", "url(", "<script", "<image", "@import", "<style");
  }

  /** A ground of its own, so that dark ink can be read on a dark page. */
  private static void ground(Element svg, Element rect) {
    String[] box = svg.getAttribute("viewBox").split(" ");
    assertThat(svg.getAttribute("width")).isEqualTo(box[2]);
    assertThat(Double.parseDouble(rect.getAttribute("width")))
        .isGreaterThanOrEqualTo(Double.parseDouble(box[2]) - 2);
    assertThat(Double.parseDouble(rect.getAttribute("height")))
        .isGreaterThanOrEqualTo(Double.parseDouble(box[3]) - 2);
    assertThat(rect.getAttribute("fill")).isEqualTo("#fdfbf5");
  }

  /** Large enough, and inside, reckoning 0.58 of its size for each letter. */
  private static void letters(Element svg) {
    double width = Double.parseDouble(svg.getAttribute("width"));
    List<Element> texts = elements(svg.getElementsByTagNameNS("*", "text"));
    assertThat(texts).isNotEmpty();
    for (Element text : texts) {
      String words = text.getTextContent();
      double size = Double.parseDouble(text.getAttribute("font-size"));
      double long_ = 0.58 * size * words.length();
      double x = Double.parseDouble(text.getAttribute("x"));
      double left =
          switch (text.getAttribute("text-anchor")) {
            case "middle" -> x - long_ / 2;
            case "end" -> x - long_;
            default -> x;
          };
      assertThat(size).as(words).isGreaterThanOrEqualTo(SMALLEST_LETTERS);
      assertThat(left).as("left end of '%s'", words).isGreaterThanOrEqualTo(0);
      assertThat(left + long_).as("right end of '%s'", words).isLessThanOrEqualTo(width);
    }
  }

  private static List<Element> elements(NodeList nodes) {
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < nodes.getLength(); i++) {
      if (nodes.item(i) instanceof Element element) {
        elements.add(element);
      }
    }
    return elements;
  }

  @Test
  void everyDrawingIsShownOnceUnderItsTitle() throws Exception {
    Map<String, String> shown = new TreeMap<>();
    for (Page page : PAGES) {
      Matcher picture = PICTURE.matcher(page.text());
      while (picture.find()) {
        assertThat(shown.put(picture.group(2), picture.group(1))).as(picture.group(2)).isNull();
      }
    }
    Map<String, String> titles = new TreeMap<>();
    try (Stream<Path> files = Files.list(FOLDER)) {
      for (Path file : files.toList()) {
        titles.put(
            file.getFileName().toString(),
            elements(parse(file).getElementsByTagNameNS("*", "title")).get(0).getTextContent());
      }
    }
    assertThat(shown).isEqualTo(titles);
  }

  @Test
  void valuesInADrawingStandOnItsPageAndInItsDescription() throws Exception {
    for (Page page : PAGES) {
      Matcher picture = PICTURE.matcher(page.text());
      while (picture.find()) {
        Element svg = parse(FOLDER.resolve(picture.group(2))).getDocumentElement();
        String description =
            elements(svg.getElementsByTagNameNS("*", "desc")).get(0).getTextContent();
        for (Element text : elements(svg.getElementsByTagNameNS("*", "text"))) {
          Matcher value = VALUE.matcher(text.getTextContent());
          while (value.find()) {
            assertThat(page.text())
                .as("%s, of %s, on %s", value.group(), picture.group(2), page.path())
                .contains(value.group());
            if (value.group().endsWith("ohm")) {
              assertThat(description).as(picture.group(2)).contains(value.group());
            }
          }
        }
      }
    }
  }
}
