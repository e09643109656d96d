package cardproof.report;

/**
 * Where in a wave a line or a net is shown.
 *
 * @param bit counted from the lowest of its group
 */
record WaveBit(BitGroup group, int bit) {}
