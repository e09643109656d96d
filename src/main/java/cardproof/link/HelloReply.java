package cardproof.link;

/**
 * Who the fixture is. Of one with another major version only {@code major} and {@code minor} hold;
 * the rest is 0 or empty.
 *
 * @param firmware version, such as {@code 1.0.2}
 * @param minor the version that holds: the lower of the host's and the fixture's
 * @param resetCause see {@code protocol.md}; 0 unknown
 * @param boot differs at every reset
 * @param boardId the same at every boot; 0 where there is none
 * @param slots how many steps it keeps, at least 2
 * @param longestFrame bytes before COBS
 * @param blindUs longest time between two samples
 * @param capabilities bits of {@link Capability}
 * @param session the session in place, open or ended; 0 after a reset
 * @param mostEntries of a sequence; 0 before version 1.1
 * @param mostEdges kept of one step; 0 before version 1.1
 */
public record HelloReply(
    int major,
    int minor,
    String firmware,
    int resetCause,
    int boot,
    long boardId,
    int drives,
    int watches,
    int slots,
    int longestFrame,
    long periodNs,
    int blindUs,
    int capabilities,
    String board,
    int session,
    int mostEntries,
    int mostEdges)
    implements Message {
  /** As version 1.0 has it. */
  public HelloReply(
      int major,
      int minor,
      String firmware,
      int resetCause,
      int boot,
      long boardId,
      int drives,
      int watches,
      int slots,
      int longestFrame,
      long periodNs,
      int blindUs,
      int capabilities,
      String board,
      int session) {
    this(
        major,
        minor,
        firmware,
        resetCause,
        boot,
        boardId,
        drives,
        watches,
        slots,
        longestFrame,
        periodNs,
        blindUs,
        capabilities,
        board,
        session,
        0,
        0);
  }

  /** What can be known of a fixture that speaks another major version. */
  static HelloReply versionOnly(int major, int minor) {
    return new HelloReply(major, minor, "", 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, "", 0);
  }

  /** Most entries that a sequence may have; 0 where the fixture runs none. */
  public int mostEntriesOfSequence() {
    int fit = Sequence.mostEntries(drives, watches, longestFrame);
    return speaksAdditions(Capability.SEQUENCES) ? Math.min(mostEntries, fit) : 0;
  }

  /** Whether it keeps every edge of a step that asks for it. */
  public boolean captures() {
    return speaksAdditions(Capability.EDGE_CAPTURE);
  }

  /** Whether it can switch the card's supply. */
  public boolean canSwitchSupply() {
    return speaksAdditions(Capability.SUPPLY_SWITCH);
  }

  /** Whether its results carry rail and current. */
  public boolean senses() {
    return speaksAdditions(Capability.SENSE);
  }

  private boolean speaksAdditions(Capability capability) {
    return minor >= Protocol.MINOR_OF_ADDITIONS && has(capability);
  }

  public boolean has(Capability capability) {
    return (capabilities & capability.bit()) != 0;
  }
}
