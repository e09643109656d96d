#include "session.h"

#include "answers.h"
#include "bytes.h"
#include "changes.h"
#include "edges.h"
#include "observer.h"
#include "port.h"
#include "sequence.h"
#include "slots.h"

struct session session;

static void release(void) {
  port_release();
  countdown_stop(&session.hold);
  clear_set(session.on, DRIVE_BYTES);
}

void session_begin(void) {
  session.number = 0;
  session.state = SAFE;
  session.cause = CAUSE_NONE;
  session.chattering = NO_WATCH;
  session.status_due = false;
  countdown_stop(&session.silence);
  clear_set(session.watched, WATCH_BYTES);
  release();
}

void session_open(uint32_t number, const uint8_t *body) {
  release();
  sequence_clear();
  observer_clear();
  edges_clear();
  slots_clear();
  port_look();
  session.number = number;
  session.state = OPENED;
  session.cause = CAUSE_OPEN;
  session.chattering = NO_WATCH;
  session.status_due = false;
  session.silence_ms = get16(body + 8);
  session.moves_most = body[10];
  session.changes_most = get16(body + 11);
  session.rest_us = get16(body + 13);
  session.hold_ms = get32(body + 15);
  copy_set(session.allowed, body + 19, DRIVE_BYTES);
  copy_set(session.watched, body + 19 + DRIVE_BYTES, WATCH_BYTES);
  countdown_set(&session.silence, session.silence_ms);
}

bool session_start(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick) {
  BOARD_FREEZE();
  bool calm = changes_empty();
  if (calm) {
    port_drives(on, first_tick, last_tick);
  }
  BOARD_THAW();
  if (calm) {
    copy_set(session.on, on, DRIVE_BYTES);
    countdown_set(&session.hold, session.hold_ms);
  }
  return calm;
}

void session_switch(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick) {
  BOARD_FREEZE();
  port_drives(on, first_tick, last_tick);
  BOARD_THAW();
  port_look();
  copy_set(session.on, on, DRIVE_BYTES);
  countdown_set(&session.hold, session.hold_ms);
}

void session_drop(uint8_t cause) {
  release();
  bool tripped = cause == CAUSE_CHATTER || cause == CAUSE_HOLD || cause == CAUSE_SUPPLY;
  sequence_clear();
  if (session.state == RUN) {
    observer_cut(tripped ? RESULT_TRIPPED : RESULT_STOPPED);
  }
  observer.prepared = false;
  session.state = tripped ? TRIPPED : SAFE;
  session.cause = cause;
  countdown_stop(&session.silence);
  session.status_due = cause != CAUSE_STOP; /* a STOP is answered anyway */
  answers_wake();
}

void session_pass(uint16_t passed_us) {
  if (countdown_run(&session.hold, passed_us) && session_live()) {
    session_drop(CAUSE_HOLD);
  }
  if (countdown_run(&session.silence, passed_us) && (session.state == OPENED || session_live())) {
    session_drop(CAUSE_SILENCE);
  }
}
