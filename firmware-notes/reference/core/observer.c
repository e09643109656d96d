#include "observer.h"

#include "answers.h"
#include "bytes.h"
#include "changes.h"
#include "edges.h"
#include "port.h"
#include "results.h"
#include "sequence.h"
#include "session.h"
#include "tally.h"

struct observer observer;

void observer_begin(const uint8_t *levels) {
  copy_set(observer.levels, levels, WATCH_BYTES);
  observer_clear();
}

void observer_clear(void) {
  observer.prepared = false;
  observer.counting = false;
  clear_set(observer.stirred, WATCH_BYTES);
}

static void compare(void) {
  uint8_t differs = 0;
  for (uint8_t i = 0; i < WATCH_BYTES; i++) {
    differs |= (uint8_t)((observer.levels[i] ^ observer.step.expect[i]) & observer.step.care[i]);
  }
  observer.matched = differs == 0;
}

/* A step dwells before anything else is due: its dwell is not later than its end. */
static bool dwells_next(void) {
  return (observer.step.flags & STEP_DWELL) != 0 && !observer.dwelt;
}

static uint32_t later(uint32_t a_us, uint32_t b_us) {
  return a_us > b_us ? a_us : b_us;
}

/*
 * Finds when the step dwells or ends if nothing more happens. Marks lie within the step, so that no sum below runs
 * over; an entry that was switched late, after the end of watching, moves the end.
 */
static void plan(void) {
  uint32_t watch_us = observer.step.watch_us;
  if (dwells_next()) {
    observer.due_us = observer.step.dwell_us;
    return;
  }
  if (sequence_pending()) {
    observer.due_us = UINT32_MAX;
    return;
  }
  observer.due_us = later(watch_us, observer.mark_us);
  if (observer.matched && (observer.step.flags & (STEP_AUDIT | STEP_DWELL)) == 0 &&
      watch_us > observer.mark_us && watch_us - observer.mark_us > observer.step.quiet_us) {
    uint32_t quiet_us = observer.mark_us + observer.step.quiet_us;
    observer.due_us = later(quiet_us, observer.sample_us);
  }
}

void observer_prepare(void) {
  struct slot *slot = slots_current();
  observer.counting = false;
  observer.step = slot->of.step;
  port_look();
  struct result *r = &slot->of.result;
  observer.result = r;
  r->gap_us = 0;
  r->flags = 0;
  clear_set(r->unstable, WATCH_BYTES);
  clear_set(r->dwell, WATCH_BYTES);
  clear_set(r->moved, WATCH_BYTES);
  port_look();
  observer.missed = false;
  observer.dwelt = false;
  observer.mark_us = 0;
  observer.sample_us = 0;
  tally_clear();
  observer.prepared = true;
}

void observer_start(void) {
  struct result *r = observer.result;
  copy_set(r->before, observer.levels, WATCH_BYTES);
  copy_set(r->stirred, observer.stirred, WATCH_BYTES);
  compare();
  (void)changes_take_blind_us();
  uint16_t first_tick;
  uint16_t last_tick;
  if (!session_start(observer.step.on, &first_tick, &last_tick)) {
    return; /* something has moved meanwhile, and belongs to the step before */
  }
  clear_set(observer.counted, WATCH_BYTES);
  observer.prepared = false;
  observer.counting = true;
  slots_current()->state = SLOT_RUNNING;
  session.state = RUN;
#if BOARD_EDGES > 0
  if ((observer.step.flags & STEP_CAPTURE) != 0) {
    edges_start(slots.finished);
  }
#endif
  session_pass(clock_forward(first_tick));
  r->start = bench_clock.now;
  observer.start_us = r->start.low;
  plan();
  r->skew_us = skew_us(first_tick, last_tick);
  countdown_set(&session.hold, session.hold_ms);
}

static void finish(uint32_t at_us, uint8_t flag) {
  struct result *r = observer.result;
  uint8_t flags = flag;
  if (observer.matched) {
    flags |= RESULT_MATCHED;
  }
  if (at_us - observer.mark_us >= observer.step.quiet_us) {
    flags |= RESULT_QUIET;
  }
  if (observer.dwelt) {
    flags |= RESULT_DWELL;
  }
  bool well = observer.matched && (flags & RESULT_QUIET) != 0 && !observer.missed;
  bool held = flag == 0 || flag == RESULT_EARLY;
  held = held && (observer.step.flags & STEP_GATE) != 0 && !well;
  if (held) {
    flags |= RESULT_MISSED;
    session.status_due = true;
  }
  r->flags = flags;
  r->duration_us = at_us;
  r->blind_us = changes_take_blind_us();
  results_note_blind_us(r->blind_us);
  copy_set(r->last, observer.levels, WATCH_BYTES);
  copy_set(observer.counted, r->moved, WATCH_BYTES);
  clear_set(observer.stirred, WATCH_BYTES);
  slots_finish();
  answers_wake();
  session.state = held ? HELD : READY;
}

void observer_cut(uint8_t flag) {
  finish(observer_elapsed_us(), flag);
}

void observer_advance(bool complete) {
  if (session.state != RUN) {
    return;
  }
  uint32_t now_us = observer_elapsed_us();
  while (observer.due_us < now_us || (complete && observer.due_us == now_us)) {
    if (dwells_next()) {
      observer.dwelt = true;
      copy_set(observer.result->dwell, observer.levels, WATCH_BYTES);
      plan();
    } else {
      finish(observer.due_us, observer.due_us < observer.step.watch_us ? RESULT_EARLY : 0);
      return;
    }
  }
}

static bool near_dwell(uint32_t at_us) {
  uint32_t dwell_us = observer.step.dwell_us;
  return (observer.step.flags & STEP_DWELL) != 0 &&
         (at_us > dwell_us ? at_us - dwell_us : dwell_us - at_us) <= APERTURE_US;
}

/* The sample that is being digested. */
static struct {
  bool running;
  uint32_t at_us; /* from the start of the running step */
  uint16_t unit;  /* now, as the tally has it */
} sample;

/* A line of the running step has changed; true when that is a move. */
static bool note_change(struct line *line, bool first) {
  bool move = true;
  if (first) {
    line->first_us = sample.at_us;
    line->changes = 1;
    line->moves = 1;
  } else {
    move = sample.at_us - line->last_us >= session.rest_us;
    if (line->changes != UINT16_MAX) {
      line->changes++;
    }
    if (move && line->moves != UINT8_MAX) {
      line->moves++;
    }
  }
  line->last_us = sample.at_us;
  return move;
}

/* After the step a change still counts towards that step's chatter; true when it is a move. */
static bool rested(const struct tally *count) {
  return (uint16_t)(sample.unit - count->last) > (uint16_t)(session.rest_us >> TALLY_UNIT_SHIFT);
}

/* Eight lines of one sample, those that differ; true when none of them chatters. */
static bool digest_byte(uint8_t index, uint8_t differs) {
  bool calm = true;
  uint8_t watch = (uint8_t)(index << 3);
  struct tally *count = &tally[watch];
  struct line *line = &observer.result->lines[watch];
  uint8_t *moved = sample.running ? &observer.result->moved[index] : &observer.counted[index];
  for (uint8_t bit = 1; differs != 0; bit = (uint8_t)(bit << 1)) {
    if (differs & bit) {
      bool first = (*moved & bit) == 0;
      *moved |= bit;
      differs ^= bit;
      bool move = sample.running ? note_change(line, first) : first || rested(count);
      count->last = sample.unit;
#if BOARD_EDGES > 0
      if (sample.running && (observer.step.flags & STEP_CAPTURE) != 0) {
        edges_keep(sample.at_us, watch, (observer.levels[index] & bit) != 0);
      }
#endif
      if (tally_count(count, move) && calm) {
        calm = false;
        session.chattering = watch;
      }
      port_look();
    }
    watch++;
    count++;
    line++;
  }
  return calm;
}

/* What a sample with changes means for the step as a whole. */
static void step_changed(uint32_t at_us) {
  struct result *r = observer.result;
  uint32_t gap_us = at_us - observer.mark_us;
  if (gap_us > r->gap_us) {
    r->gap_us = gap_us;
  }
  observer.mark_us = at_us;
  if (at_us > observer.step.limit_us) {
    observer.missed = true;
  }
}

static void byte_changed(uint8_t index, uint8_t differs, bool near) {
  if (differs & observer.step.still[index]) {
    observer.missed = true;
  }
  if (near) {
    observer.result->unstable[index] |= differs;
  }
}

void observer_digest(const uint8_t *lines) {
  bool running = session.state == RUN;
  sample.running = running;
  sample.unit = (uint16_t)(bench_clock.now.low >> TALLY_UNIT_SHIFT);
  bool counting = observer.counting && session_live();
  uint32_t at_us = running ? observer_elapsed_us() : 0;
  sample.at_us = at_us;
  bool near = running && near_dwell(at_us);
  bool changed = false;
  bool calm = true;
  for (uint8_t i = 0; i < WATCH_BYTES; i++) {
    uint8_t differs = (uint8_t)((lines[i] ^ observer.levels[i]) & session.watched[i]);
    observer.levels[i] = lines[i];
    if (differs == 0) {
      continue;
    }
    changed = true;
    if (running) {
      byte_changed(i, differs, near);
    } else {
      observer.stirred[i] |= differs;
    }
    port_look();
    if (counting && !digest_byte(i, differs) && calm) {
      calm = false;
    }
  }
  if (running) {
    observer.sample_us = at_us;
    compare();
    if (changed) {
      step_changed(at_us);
    }
  }
  if (!calm) {
    session_drop(CAUSE_CHATTER);
  } else if (running) {
    plan();
  }
}

void observer_entry(uint16_t late_us) {
  if (session.state != RUN) {
    return;
  }
  struct result *r = observer.result;
  if (late_us > r->skew_us) {
    r->skew_us = late_us;
  }
  observer.mark_us = observer_elapsed_us();
  plan();
  tally_clear();
}
