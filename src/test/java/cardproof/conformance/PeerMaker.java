package cardproof.conformance;

/** Makes a fixture that was just reset, with a card; one for each case. */
interface PeerMaker {
  /** The peer's column in the table. */
  String name();

  int drives();

  int watches();

  Peer start(CardScript card);
}
