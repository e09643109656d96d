package cardproof.conformance;

/** A frame, and when it was all there. */
record Arrived(long atNs, Frame frame) {}
