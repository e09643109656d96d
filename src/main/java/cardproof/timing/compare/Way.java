package cardproof.timing.compare;

/**
 * A line and a direction. Lines of different runs are the same line where bus and bit are.
 *
 * @param bus name of the bus
 * @param bit within the bus
 * @param endsHigh whether it ended in 1
 */
record Way(String bus, int bit, boolean endsHigh) {}
