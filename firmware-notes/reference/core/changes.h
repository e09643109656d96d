/*
 * The change ring: what the sampling loop saw, waiting to be digested.
 *
 * The loop stores a sample only where it differs from the one before. A sample that finds the ring full counts as
 * not taken: the change is seen again when there is room, and the blind time that comes of it is counted like any other.
 * One place is always kept free, so that head == tail means empty.
 */
#ifndef BENCH_CHANGES_H
#define BENCH_CHANGES_H

#include "board.h"

struct change {
  uint16_t tick;
  uint8_t lines[WATCH_BYTES_MOST];
};

struct changes {
  volatile uint8_t head; /* next to be written */
  uint8_t tail; /* next to be digested */
  uint16_t last_tick; /* of the last sample */
  uint16_t blind; /* ticks, longest between two samples since it was taken */
  uint8_t seen[WATCH_BYTES_MOST]; /* the last sample */
  struct change ring[BOARD_CHANGES];
};

#define CHANGES_NEXT(index) ((uint8_t)(((index) + 1) & (BOARD_CHANGES - 1)))

extern struct changes changes;

static inline bool changes_empty(void) {
  return changes.head == changes.tail;
}

/* Starts anew: this sample at this tick, and nothing to digest. */
void changes_begin(uint16_t tick, const uint8_t *lines);

/* The longest time between two samples since the last call, microseconds rounded up. */
uint16_t changes_take_blind_us(void);

/* A sample, for ports that need not count cycles. */
void changes_sample(uint16_t tick, const uint8_t *lines);

#endif
