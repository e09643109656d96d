#include "changes.h"

#include "bytes.h"
#include "clock.h"

struct changes changes;

void changes_begin(uint16_t tick, const uint8_t *lines) {
  changes.head = 0;
  changes.tail = 0;
  changes.last_tick = tick;
  changes.blind = 0;
  copy_set(changes.seen, lines, WATCH_BYTES);
}

uint16_t changes_take_blind_us(void) {
  BOARD_FREEZE();
  uint16_t blind = changes.blind;
  changes.blind = BOARD_PERIOD_TICKS;
  BOARD_THAW();
  return (uint16_t)(blind / TICKS_PER_US + blind % TICKS_PER_US);
}

void changes_sample(uint16_t tick, const uint8_t *lines) {
  uint8_t differs = 0;
  for (uint8_t i = 0; i < WATCH_BYTES; i++) {
    differs |= (uint8_t)(lines[i] ^ changes.seen[i]);
  }
  if (differs != 0) {
    uint8_t next = CHANGES_NEXT(changes.head);
    if (next == changes.tail) {
      return; /* as if there had been no sample */
    }
    struct change *change = &changes.ring[changes.head];
    change->tick = tick;
    copy_set(change->lines, lines, WATCH_BYTES);
    copy_set(changes.seen, lines, WATCH_BYTES);
    changes.head = next;
  }
  uint16_t gap = (uint16_t)(tick - changes.last_tick);
  if (gap > changes.blind) {
    changes.blind = gap;
  }
  changes.last_tick = tick;
}
