/*
 * The moves and changes of each line that make chatter. They are counted apart from those of the result, because a
 * sequence counts them anew from each entry on.
 */
#ifndef BENCH_TALLY_H
#define BENCH_TALLY_H

#include "board.h"

void tally_clear(void);

/* Counts a change of the line; true when the line has reached what OPEN allows. */
bool tally_count(uint8_t watch, bool move);

#endif
