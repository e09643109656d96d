/*
 * The running step as it is observed: samples are digested one by one, in order and at their own times, so that a step
 * ends where it ought to have ended however far behind the digestion is.
 */
#ifndef BENCH_OBSERVER_H
#define BENCH_OBSERVER_H

#include "board.h"
#include "clock.h"
#include "slots.h"

/* A change this close to the dwell sample, on either side, makes its line unstable. */
#define APERTURE_US 1000u

struct observer {
  uint8_t levels[WATCH_BYTES_MOST];  /* digested so far */
  uint8_t stirred[WATCH_BYTES_MOST]; /* changed between the end of the last step and the next start */
  uint8_t counted[WATCH_BYTES_MOST]; /* changed since the last start */
  bool counting;                     /* changes count towards chatter of the last step, also after its end */
  bool prepared;                     /* the step in the current slot waits for observer_start */
  bool matched;                      /* every cared-for watch is as expected */
  bool missed;                       /* a late change, or a still line that moved */
  bool dwelt;                        /* the dwell sample was taken */
  uint32_t mark_us; /* the last change, switched entry, or start: silence counts from here */
  uint32_t sample_us; /* of the last sample that differed, watched or not */
  uint32_t due_us;    /* when the step dwells or ends, as things stand */
  uint32_t start_us;  /* low half of the start */
  struct result *result;
  struct step step;
};

extern struct observer observer;

void observer_begin(const uint8_t *levels);

/* Forgets a step that runs or is prepared, without a result, and what has stirred. */
void observer_clear(void);

/* Takes the step out of the current slot and makes room for its result there. */
void observer_prepare(void);

/* Starts the step that was prepared: all samples so far have been digested, and the drives switch now. */
void observer_start(void);

/* Microseconds from the start of the running step to now. */
static inline uint32_t observer_elapsed_us(void) {
  return bench_clock.now.low - observer.start_us;
}

/*
 * Dwells, or ends the running step, where that was due before now; `complete` says that the sample of this moment is
 * digested too, so that what is due right now may be done.
 */
void observer_advance(bool complete);

/* Digests a sample, at now. */
void observer_digest(const uint8_t *lines);

/* An entry of the running sequence has switched, at now, late by so much. */
void observer_entry(uint16_t late_us);

/* The running step ends here, with this flag. */
void observer_cut(uint8_t flag);

#endif
