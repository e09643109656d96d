/* RESULT frames: each result goes out as soon as its step has ended, in as many parts as it takes. */
#ifndef BENCH_RESULTS_H
#define BENCH_RESULTS_H

#include "board.h"

void results_begin(void);

/* Fills in the next part that is due; false when none is. */
bool results_work(void);

/* The worst blind time of any step since reset. */
uint16_t results_worst_blind_us(void);
void results_note_blind_us(uint16_t blind_us);

#endif
