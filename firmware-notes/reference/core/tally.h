/*
 * How many moves and changes of each line are left before it chatters. Kept apart from the counts of the result: a
 * sequence counts anew from each entry on, and what a line does after its step has ended still counts.
 */
#ifndef BENCH_TALLY_H
#define BENCH_TALLY_H

#include "board.h"

struct tally {
  uint8_t moves_left;
  uint16_t changes_left;
  uint16_t last; /* when it changed last, in units of 256 us: for what comes after the step, coarse will do */
};

#define TALLY_UNIT_SHIFT 8

extern struct tally tally[BOARD_WATCHES_MOST];

/* Every line has all that OPEN allows. */
void tally_clear(void);

/* Counts a change of a line; true when that was the last that is allowed. */
static inline bool tally_count(struct tally *line, bool move) {
  if (--line->changes_left == 0) {
    return true;
  }
  return move && --line->moves_left == 0;
}

#endif
