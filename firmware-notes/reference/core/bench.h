/* The fixture's core: everything but the chip. */
#ifndef BENCH_BENCH_H
#define BENCH_BENCH_H

#include "board.h"
#include "changes.h"

/* Starts from reset: drives released, no session. The port has filled in `identity`. */
void bench_begin(uint16_t tick, const uint8_t *lines);

/*
 * Does one small piece of work: digests a sample, starts or ends a step, takes or gives one byte of a frame.
 * To be called after a look whenever bench_idle() is false.
 */
void bench_pass(void);

/* Set by whatever makes work for the link; cleared by a pass that finds none. */
extern bool bench_work;

/* The tick at which deadlines were last looked after, and how many ticks later they are again. */
extern uint16_t bench_time_tick;
extern uint16_t bench_time_ticks;

static inline bool bench_idle(void) {
  return !bench_work && changes_empty() &&
         (uint16_t)(changes.last_tick - bench_time_tick) < bench_time_ticks;
}

#endif
