package cardproof.files;

import cardproof.text.Position;

/**
 * A row of a netlist: a pin of a reference, and the net that it is on.
 *
 * @param net blank where the pin is on none
 */
record CsvRow(Position at, String reference, String pin, String net) {}
