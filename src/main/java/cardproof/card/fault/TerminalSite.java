package cardproof.card.fault;

/**
 * One solder point of a part.
 *
 * @param terminal as {@link cardproof.card.wiring.Part#terminals} has it
 */
public record TerminalSite(String part, String terminal) implements Site {
  @Override
  public String name() {
    return part + "." + terminal;
  }
}
