/*
 * The fixture's clock. The chip counts ticks of half a microsecond in 16 bits; this counts whole
 * microseconds since reset in 64, as two halves so that a small chip does no 64-bit arithmetic.
 *
 * It stands at the time up to which samples have been digested, a little behind the chip's counter.
 */
#ifndef BENCH_CLOCK_H
#define BENCH_CLOCK_H

#include <stdbool.h>
#include <stdint.h>

#define TICKS_PER_US 2u

struct moment {
  uint32_t low;
  uint32_t high;
};

struct clock {
  struct moment now;
  uint16_t tick; /* the chip's counter at `now` */
};

extern struct clock bench_clock;

void clock_begin(uint16_t tick);

/* Moves the clock on to a tick at most 16 ms later, and returns how many microseconds went by. */
uint16_t clock_forward(uint16_t tick);

/* Microseconds from now to a tick at most 16 ms away; negative when it is past. */
int16_t clock_until(uint16_t tick);

/* Microseconds between two ticks of one switching, rounded up. */
static inline uint16_t skew_us(uint16_t first_tick, uint16_t last_tick) {
  return (uint16_t)(((uint16_t)(last_tick - first_tick) + TICKS_PER_US - 1) / TICKS_PER_US);
}

/* Counts milliseconds down, in steps of any size up to 16 ms; exact to the microsecond. */
struct countdown {
  uint32_t left_ms; /* 0: not counting */
  uint16_t part_us;
};

static inline void countdown_set(struct countdown *c, uint32_t ms) {
  c->left_ms = ms;
  c->part_us = 0;
}

static inline void countdown_stop(struct countdown *c) {
  c->left_ms = 0;
}

/* Takes whole milliseconds off; true once, when the time has run out. */
bool countdown_take(struct countdown *c);

static inline bool countdown_run(struct countdown *c, uint16_t passed_us) {
  c->part_us = (uint16_t)(c->part_us + passed_us);
  return c->part_us >= 1000u && countdown_take(c);
}

#endif
