/* The entries of the one sequence that is kept, and the moment at which each is switched. */
#ifndef BENCH_SEQUENCE_H
#define BENCH_SEQUENCE_H

#include "board.h"

#if BOARD_ENTRIES > 0

/* Forgets all entries, switched or not. */
void sequence_clear(void);

/* Adds an entry: the drives that are to be on at that time, microseconds from the start of the step. */
void sequence_add(uint32_t at_us, const uint8_t *on);

extern uint8_t sequence_left;
extern bool sequence_undigested;

/* True while entries are left, or one was switched that has not been digested. */
static inline bool sequence_pending(void) {
  return sequence_left != 0 || sequence_undigested;
}

/* True while the next entry is due within a tenth of a millisecond: nothing else should be begun. */
bool sequence_is_near(void);
static inline bool sequence_near(void) {
  return sequence_left != 0 && sequence_is_near();
}

/* Switches the next entry if its time has come, after a sample. */
void sequence_switch_if_due(void);
static inline void sequence_work(void) {
  if (sequence_left != 0) {
    sequence_switch_if_due();
  }
}

/* True when an entry was switched that has not been digested. */
static inline bool sequence_waits(void) {
  return sequence_undigested;
}

/* True when that is the next thing to digest, before any sample: then its tick. */
bool sequence_switched(uint16_t *tick);

/* The switched entry has been digested at now, its tick. */
void sequence_digest(void);

#else

static inline void sequence_clear(void) {}
static inline void sequence_work(void) {}
static inline void sequence_digest(void) {}
static inline bool sequence_pending(void) {
  return false;
}
static inline bool sequence_near(void) {
  return false;
}
static inline bool sequence_waits(void) {
  return false;
}
static inline bool sequence_switched(uint16_t *tick) {
  (void)tick;
  return false;
}

#endif
#endif
