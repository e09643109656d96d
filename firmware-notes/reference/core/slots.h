/*
 * The array of K slots: each holds a step that waits, and later the result that overwrites it. Step n lives
 * in slot n mod K; the slots' places are followed by counting on, since a division takes a small chip too long.
 */
#ifndef BENCH_SLOTS_H
#define BENCH_SLOTS_H

#include "board.h"
#include "clock.h"

enum slot_state { SLOT_EMPTY, SLOT_QUEUED, SLOT_RUNNING, SLOT_DONE };

enum step_flag {
  STEP_GATE = 1,
  STEP_AUDIT = 2,
  STEP_DWELL = 4,
  STEP_CAPTURE = 8
};

/* All times are microseconds from the start of the step. */
struct step {
  uint8_t flags;
  uint32_t limit_us;
  uint32_t watch_us;
  uint32_t quiet_us;
  uint32_t dwell_us;
  uint8_t on[DRIVE_BYTES_MOST];
  uint8_t expect[WATCH_BYTES_MOST];
  uint8_t care[WATCH_BYTES_MOST];
  uint8_t still[WATCH_BYTES_MOST];
};

/* What one watch did in a step; meaningful where its bit of `moved` is set. */
struct line {
  uint32_t first_us;
  uint32_t last_us;
  uint16_t changes; /* stops at 65535 */
  uint8_t moves;    /* stops at 255 */
};

enum result_flag {
  RESULT_QUIET = 1,
  RESULT_MATCHED = 2,
  RESULT_EARLY = 4,
  RESULT_MISSED = 8,
  RESULT_TRIPPED = 16,
  RESULT_STOPPED = 32,
  RESULT_DWELL = 64
};

struct result {
  uint8_t flags;
  struct moment start;
  uint32_t duration_us;
  uint16_t skew_us;
  uint32_t gap_us;
  uint16_t blind_us;
  uint8_t before[WATCH_BYTES_MOST];
  uint8_t last[WATCH_BYTES_MOST];
  uint8_t dwell[WATCH_BYTES_MOST];
  uint8_t unstable[WATCH_BYTES_MOST];
  uint8_t stirred[WATCH_BYTES_MOST];
  uint8_t moved[WATCH_BYTES_MOST];
  struct line lines[BOARD_WATCHES_MOST];
};

struct slot {
  uint8_t state;
  bool due; /* the result is to be sent */
  union {
    struct step step;
    struct result result;
  } of;
};

struct slots {
  uint32_t next;
  uint32_t finished;
  uint32_t acked;
  uint8_t next_at; /* the slot of step `next`, and so on */
  uint8_t finished_at;
  uint8_t acked_at;
  struct slot slot[BOARD_SLOTS_MOST];
};

extern struct slots slots;

void slots_clear(void);

/* The slot of the step that is to be accepted next; it may not be empty. */
static inline struct slot *slots_next(void) {
  return &slots.slot[slots.next_at];
}

/* The slot of the first step without a result. */
static inline struct slot *slots_current(void) {
  return &slots.slot[slots.finished_at];
}

/* Counts the step in the next slot in: it is queued. */
void slots_queue(void);

/* The current step has its result. */
void slots_finish(void);

/* Empties every slot below `ack`, which is at most `finished`. */
void slots_acknowledge(uint32_t ack);

/* The slot that holds the result of that step, or a null pointer. */
struct slot *slots_result(uint32_t number);

/* The first result that is to be sent, with its number; or a null pointer. */
struct slot *slots_first_due(uint32_t *number);

#endif
