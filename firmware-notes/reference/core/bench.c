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

uint16_t bench_time_tick;
uint16_t bench_time_ticks;
bool bench_work;

/* How often deadlines are looked after: every 128 us, or every 16 us while entries of a sequence wait. */
#define TIME_TICKS (128u * TICKS_PER_US)
#define ENTRY_TICKS (16u * TICKS_PER_US)

#define TAKEN_AT_ONCE 8u /* received bytes in one go, so that a pass is worth its price */

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
  bench_time_tick = tick;
  bench_time_ticks = TIME_TICKS;
  bench_work = true;
}

/* Moves on to a tick, and does what was due until then. */
static void forward(uint16_t tick, bool complete) {
  uint16_t passed_us = clock_forward(tick);
  observer_advance(complete);
  if (complete) {
    port_look();
  }
  session_pass(passed_us);
}

/* Digests the earliest thing that waits. */
static void digest_one(void) {
  uint16_t switched_tick;
  if (sequence_switched(&switched_tick)) {
    forward(switched_tick, false);
    sequence_digest();
    return;
  }
  const struct change *change = &changes.ring[changes.tail];
  forward(change->tick, false);
  observer_digest(change->lines);
  changes.tail = CHANGES_NEXT(changes.tail);
}

/* Starts the next step, in two goes: what was seen while it was prepared is digested before the drives switch. */
static void start_next(void) {
  if (observer.prepared) {
    observer_start();
  } else if (slots_current()->state == SLOT_QUEUED) {
    observer_prepare();
  }
}

/* Everything seen so far has been digested: deadlines, and the next step. */
static void keep_time(void) {
  bench_time_tick = changes.last_tick;
  bench_time_ticks = sequence_pending() ? ENTRY_TICKS : TIME_TICKS;
  forward(changes.last_tick, true);
  if (session.state == READY && changes_empty()) {
    start_next();
  }
}

static bool send_work(void) {
  if (frame_out_busy) {
    frame_out_work();
    return true;
  }
  return answers_work();
}

static bool receive_work(void) {
  if (frame_waits) {
    frame_waits = !requests_handle();
    return true;
  }
  uint8_t byte;
  uint8_t taken = 0;
  while (taken < TAKEN_AT_ONCE && !frame_waits && port_receive(&byte)) {
    frame_waits = frame_in_take(byte);
    taken++;
    port_look();
  }
  return taken != 0;
}

/* One byte, or one frame, in or out, in turn. */
static void link_work(void) {
  static bool receive_first;
  receive_first = !receive_first;
  if (receive_first) {
    bench_work = receive_work() || send_work();
  } else {
    bench_work = send_work() || receive_work();
  }
}

/*
 * Samples that wait go before the link, three to one: the ring is what must not run over. So does the time: while
 * entries of a sequence wait, a chip may need all of ENTRY_TICKS for one look at it.
 */
void bench_pass(void) {
  static uint8_t turn;
  sequence_work();
  turn = (uint8_t)((turn + 1u) & 3u);
  bool waits = sequence_waits() || !changes_empty();
  bool link_next = turn == 0 && bench_work;
  if (waits && !link_next) {
    digest_one();
  } else if (!waits && !link_next && (uint16_t)(changes.last_tick - bench_time_tick) >= bench_time_ticks) {
    keep_time();
  } else if (!sequence_near()) {
    link_work();
  }
}
