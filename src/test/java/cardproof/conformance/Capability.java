package cardproof.conformance;

/** Section 8, in the order of the bits. */
enum Capability {
  SIMULATED,
  PUSH_PULL,
  SEQUENCES,
  CAPTURE,
  SUPPLY,
  SENSE,
  LATCHES,
  ANALOGUE
}
