package cardproof.files;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.regex.Pattern;

/** The words by which a step may be chosen. */
final class Tags {
  private static final Pattern TAG = Pattern.compile("[A-Za-z0-9_-]{1,40}");
  private static final String WANTED = "a word such as quick, or a list such as [quick, carry]";

  private final Problems problems;

  Tags(Problems problems) {
    this.problems = problems;
  }

  Set<String> read(Fields fields) {
    Set<String> tags = new LinkedHashSet<>();
    fields.get("tags").ifPresent(node -> read(node, tags));
    return tags;
  }

  private void read(Node node, Set<String> tags) {
    List<Node> items = node instanceof Node.Listing list ? list.items() : List.of(node);
    if (items.isEmpty()) {
      problems.error(node.at(), "'tags' is an empty list", WANTED, "");
    }
    for (Node item : items) {
      new Texts(problems)
          .text(item, "tags", WANTED)
          .ifPresent(
              text -> {
                String tag = text.text().strip();
                if (TAG.matcher(tag).matches()) {
                  tags.add(tag);
                } else {
                  problems.error(
                      text.at(),
                      text.described() + " cannot be a tag",
                      "at most 40 letters, digits, '_' and '-'",
                      tag.startsWith("#") ? "Leave the # out here" : "");
                }
              });
    }
  }
}
