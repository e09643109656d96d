/* The session, its state, and everything that brings the drives down. */
#ifndef BENCH_SESSION_H
#define BENCH_SESSION_H

#include "board.h"
#include "clock.h"

enum session_state { SAFE, OPENED, READY, RUN, HELD, TRIPPED };

enum drop_cause {
  CAUSE_NONE,
  CAUSE_STOP,
  CAUSE_SILENCE,
  CAUSE_CHATTER,
  CAUSE_HOLD,
  CAUSE_SUPPLY,
  CAUSE_OPEN
};

#define NO_WATCH 255u

struct session {
  uint32_t number; /* 0 before the first OPEN */
  uint8_t state;
  uint8_t cause;
  uint8_t chattering; /* the watch that chattered, or NO_WATCH */
  bool status_due;    /* a STATUS of the fixture's own accord is to be sent */
  uint8_t moves_most;
  uint16_t changes_most;
  uint16_t rest_us;
  uint16_t silence_ms;
  uint32_t hold_ms;
  struct countdown silence;
  struct countdown hold;
  uint8_t allowed[DRIVE_BYTES_MOST];
  uint8_t watched[WATCH_BYTES_MOST];
  uint8_t on[DRIVE_BYTES_MOST]; /* drives that are on at this moment */
};

extern struct session session;

void session_begin(void);

static inline bool session_live(void) {
  return session.state == READY || session.state == RUN || session.state == HELD;
}

/* Takes the body of an OPEN that has passed every test. */
void session_open(uint32_t number, const uint8_t *body);

/*
 * Switches every drive to what the set says at the start of a step, and starts to count how long it is held; or does
 * nothing and returns false where a sample waits that belongs to the step before.
 */
bool session_start(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick);

/* The same in the course of a step, whatever waits. */
void session_switch(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick);

/* Releases the drives, ends a running step, and ends the session's steps. */
void session_drop(uint8_t cause);

/* Silence and hold time, after that many microseconds. */
void session_pass(uint16_t passed_us);

#endif
