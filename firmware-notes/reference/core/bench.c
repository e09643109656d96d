#include "bench.h"

#include "answers.h"
#include "clock.h"
#include "frame_in.h"
#include "frame_out.h"
#include "observer.h"
#include "port.h"
#include "requests.h"
#include "sequence.h"
#include "session.h"
#include "slots.h"

uint16_t bench_pass_tick;
bool bench_hurry;

static bool frame_waits; /* a whole frame is there, and could not be answered yet */

void bench_begin(uint16_t tick, const uint8_t *lines) {
  clock_begin(tick);
  changes_begin(tick, lines);
  frame_in_begin();
  frame_out_busy = false;
  frame_waits = false;
  sequence_clear();
  observer_begin(lines);
  slots_clear();
  answers_begin();
  session_begin();
  bench_pass_tick = tick;
  bench_hurry = false;
}

static void forward(uint16_t tick, bool complete) {
  uint16_t passed_us = clock_forward(tick);
  observer_advance(complete);
  session_pass(passed_us);
}

/* Digests the earliest thing that waits; false when there is none. */
static bool digest_one(void) {
#if BOARD_ENTRIES > 0
  uint16_t switched_tick;
  if (sequence_switched(&switched_tick)) {
    forward(switched_tick, false);
    sequence_digest();
    return true;
  }
#endif
  if (changes_empty()) {
    return false;
  }
  const struct change *change = &changes.ring[changes.tail];
  forward(change->tick, false);
  observer_digest(change->lines);
  changes.tail = CHANGES_NEXT(changes.tail);
  return true;
}

/* Starts the next step, in two goes: what was seen while it was prepared is digested before the drives switch. */
static void start_next(void) {
  if (observer.prepared) {
    observer_start();
  } else if (slots_current()->state == SLOT_QUEUED) {
    observer_prepare();
  }
}

static void keep_time(void) {
  forward(changes.last_tick, true);
  if (session.state == READY) {
    start_next();
  }
}

static bool link_has_work(void) {
  return frame_waits || frame_out_busy || answers_due || port_has_received();
}

/* Takes a byte or a frame, and gives a byte or begins a frame, in turn. */
static void link_work(void) {
  static bool receive;
  receive = !receive;
  if (receive) {
    if (frame_waits) {
      frame_waits = !requests_handle();
      return;
    }
    uint8_t byte;
    if (port_receive(&byte)) {
      frame_waits = frame_in_take(byte);
      return;
    }
  }
  if (frame_out_busy) {
    frame_out_work();
  } else if (answers_due) {
    answers_work();
  }
}

void bench_pass(void) {
  static bool link_turn;
#if BOARD_ENTRIES > 0
  sequence_work();
#endif
  bool near = sequence_near();
  link_turn = !link_turn;
  if (link_turn && !near && link_has_work()) {
    link_work();
  } else if (!digest_one()) {
    bench_pass_tick = changes.last_tick;
    keep_time();
  }
  bench_hurry = near || observer.prepared || link_has_work();
}
