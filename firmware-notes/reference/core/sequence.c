#include "sequence.h"

#if BOARD_ENTRIES > 0

#include "bytes.h"
#include "changes.h"
#include "observer.h"
#include "port.h"
#include "session.h"

#define NEAR_US 100u

struct entry {
  uint32_t at_us;
  uint8_t on[DRIVE_BYTES_MOST];
};

static struct {
  uint8_t count;
  uint8_t next;
  uint16_t first_tick;
  uint16_t last_tick;
  struct entry entry[BOARD_ENTRIES];
} sequence;

uint8_t sequence_left;
bool sequence_undigested;

void sequence_clear(void) {
  sequence.count = 0;
  sequence.next = 0;
  sequence_left = 0;
  sequence_undigested = false;
}

void sequence_add(uint32_t at_us, const uint8_t *on) {
  struct entry *entry = &sequence.entry[sequence.count++];
  entry->at_us = at_us;
  copy_set(entry->on, on, DRIVE_BYTES);
  sequence_left++;
}

/* Microseconds of the running step at the last sample, which may not have been digested. */
static uint32_t sampled_us(void) {
  int16_t ahead_us = clock_until(changes.last_tick);
  return observer_elapsed_us() + (ahead_us > 0 ? (uint16_t)ahead_us : 0u);
}

bool sequence_is_near(void) {
  return session.state == RUN && sampled_us() + NEAR_US >= sequence.entry[sequence.next].at_us;
}

void sequence_switch_if_due(void) {
  if (session.state != RUN || sequence_undigested) {
    return;
  }
  const struct entry *entry = &sequence.entry[sequence.next];
  if (sampled_us() < entry->at_us) {
    return;
  }
  session_switch(entry->on, &sequence.first_tick, &sequence.last_tick);
  sequence.next++;
  sequence_left--;
  sequence_undigested = true;
}

/* True when tick a comes before tick b, both within 16 ms. */
static bool before(uint16_t a, uint16_t b) {
  return (uint16_t)(b - a) < 0x8000u && a != b;
}

bool sequence_switched(uint16_t *tick) {
  if (!sequence_undigested) {
    return false;
  }
  *tick = sequence.first_tick;
  return changes_empty() || before(sequence.first_tick, changes.ring[changes.tail].tick);
}

void sequence_digest(void) {
  sequence_undigested = false;
  uint16_t late_us =
      (uint16_t)(observer_elapsed_us() - sequence.entry[sequence.next - 1].at_us);
  uint16_t width_us = skew_us(sequence.first_tick, sequence.last_tick);
  observer_entry(late_us > width_us ? late_us : width_us);
}

#endif
