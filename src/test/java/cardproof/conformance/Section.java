package cardproof.conformance;

import java.util.ArrayList;
import java.util.List;

/** Cases of one section of the page, as they are written down. */
final class Section {
  private final String name;
  private final List<Case> cases = new ArrayList<>();

  Section(String name) {
    this.name = name;
  }

  /** With the usual card: watch 0 follows drive 0 after 5 ms, watch 1 drive 1 after 8 ms. */
  Section add(String what, Case.Body body) {
    return add(what, (drives, watches) -> usual(), body);
  }

  Section add(String what, CardScript card, Case.Body body) {
    return add(what, (drives, watches) -> card, body);
  }

  Section add(String what, Case.CardOf card, Case.Body body) {
    cases.add(new Case(name, what, card, body));
    return this;
  }

  List<Case> cases() {
    return cases;
  }

  static CardScript usual() {
    return new CardScript().follow(0, 0, 5000).follow(1, 1, 8000);
  }
}
