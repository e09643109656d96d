#include "results.h"

#include <stddef.h>

#include "bytes.h"
#include "frame_out.h"
#include "port.h"
#include "session.h"
#include "slots.h"
#include "types.h"

#define ENTRY_BYTES 12u

static struct {
  bool sending;
  uint32_t number;
  uint8_t watch; /* the part starts with the first line that moved from here on */
  uint8_t index; /* entries sent before */
  uint16_t worst_blind_us;
} out;

void results_begin(void) {
  out.sending = false;
  out.worst_blind_us = 0;
}

uint16_t results_worst_blind_us(void) {
  return out.worst_blind_us;
}

void results_note_blind_us(uint16_t blind_us) {
  if (blind_us > out.worst_blind_us) {
    out.worst_blind_us = blind_us;
  }
}

static uint8_t moved_lines(const struct result *r) {
  uint8_t count = 0;
  for (uint8_t i = 0; i < WATCH_BYTES; i++) {
    for (uint8_t bits = r->moved[i]; bits != 0; bits &= (uint8_t)(bits - 1u)) {
      count++;
    }
  }
  return count;
}

static void head(const struct result *r) {
  frame_out_start(TYPE_RESULT, session.number);
  frame_out_32(out.number);
  frame_out_32(slots.next);
  frame_out_16(r->flags);
  frame_out_32(r->start.low);
  frame_out_32(r->start.high);
  frame_out_32(r->duration_us);
  frame_out_16(r->skew_us);
  frame_out_32(r->gap_us);
  frame_out_16(r->blind_us);
  frame_out_set(r->before, WATCH_BYTES);
  frame_out_set(r->last, WATCH_BYTES);
  frame_out_set(r->dwell, WATCH_BYTES);
  frame_out_set(r->unstable, WATCH_BYTES);
  for (uint8_t i = 0; i < WATCH_BYTES; i++) {
    frame_out_8(0); /* no edge latches, so nothing glitched */
  }
  frame_out_set(r->stirred, WATCH_BYTES);
}

static void entry(uint8_t watch, const struct line *line) {
  frame_out_8(watch);
  frame_out_32(line->first_us);
  frame_out_32(line->last_us);
  frame_out_16(line->changes);
  frame_out_8(line->moves);
}

/* One part; true when it was the last. */
static bool part(const struct result *r) {
  head(r);
  uint8_t total = moved_lines(r);
  uint8_t here = (uint8_t)(total - out.index);
  uint16_t fit = (uint16_t)((frame_out_room() - 3u) / ENTRY_BYTES);
  if (here > fit) {
    here = (uint8_t)fit;
  }
  port_look();
  frame_out_8(total);
  frame_out_8(out.index);
  frame_out_8(here);
  out.index = (uint8_t)(out.index + here);
  while (here > 0) {
    if (in_set(r->moved, out.watch)) {
      port_look();
      entry(out.watch, &r->lines[out.watch]);
      here--;
    }
    out.watch++;
    port_look();
  }
  frame_out_finish();
  return out.index == total;
}

bool results_work(void) {
  struct slot *slot = out.sending ? slots_result(out.number) : NULL;
  if (slot == NULL) { /* nothing begun, or acknowledged half-way */
    slot = slots_first_due(&out.number);
    if (slot == NULL) {
      out.sending = false;
      return false;
    }
    slot->due = false;
    out.watch = 0;
    out.index = 0;
  }
  out.sending = !part(&slot->of.result);
  return true;
}
