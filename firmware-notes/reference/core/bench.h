/* The fixture's core: everything but the chip. */
#ifndef BENCH_BENCH_H
#define BENCH_BENCH_H

#include "board.h"
#include "changes.h"

/* Starts from reset: drives released, no session. The port has filled in `identity`. */
void bench_begin(uint16_t tick, const uint8_t *lines);

/*
 * Does one small piece of work: digests a sample, starts or ends a step, takes or gives one byte of a frame.
 * Called after a look whenever bench_busy says so, and at least every 10 ms.
 */
void bench_pass(void);

/* The tick of the last pass. */
extern uint16_t bench_pass_tick;

/* True while the next pass should come as soon as it can. */
extern bool bench_hurry;

#endif
