package cardproof.files.draft;

import java.util.Locale;

/** What has to be known of a card before its file can be written, in the order in which to ask. */
public enum CardTopic {
  NAME(""),
  TITLE(""),
  VOLTAGE("12 V"),
  LIMIT("3 A"),
  UNSEEN_STAGES("1"),
  OPERATE("15 ms"),
  RELEASE("18 ms"),
  BOUNCE("8 ms"),
  /** {@code NAME[:WIDTH][@PINS]}, any number of them; so are outputs and shared buses. */
  INPUT(""),
  OUTPUT(""),
  SHARED(""),
  /** {@code NAME[:WIDTH][=POWER-ON]}. */
  STATE(""),
  /** {@code STATE = EXPRESSION}. */
  NEXT(""),
  /** {@code OUTPUT = EXPRESSION}. */
  BEHAVIOUR(""),
  /** Worked out from the relays where nothing is said. */
  SETTLE("");

  private final String standard;

  CardTopic(String standard) {
    this.standard = standard;
  }

  /** What holds where nothing is said; empty where nothing can. */
  public String standard() {
    return standard;
  }

  /** As an option is called, without its dashes. */
  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** Whether there may be several answers. */
  boolean many() {
    return ordinal() >= INPUT.ordinal() && this != SETTLE;
  }
}
