#include "slots.h"

#include <stddef.h>

struct slots slots;

static uint8_t after(uint8_t at) {
  return (uint8_t)(at + 1u) == BOARD_SLOTS ? 0 : (uint8_t)(at + 1u);
}

void slots_clear(void) {
  slots.next = 0;
  slots.finished = 0;
  slots.acked = 0;
  slots.next_at = 0;
  slots.finished_at = 0;
  slots.acked_at = 0;
  for (uint8_t i = 0; i < BOARD_SLOTS; i++) {
    slots.slot[i].state = SLOT_EMPTY;
    slots.slot[i].due = false;
  }
}

void slots_queue(void) {
  slots_next()->state = SLOT_QUEUED;
  slots.next_at = after(slots.next_at);
  slots.next++;
}

void slots_finish(void) {
  slots_current()->state = SLOT_DONE;
  slots_current()->due = true;
  slots.finished_at = after(slots.finished_at);
  slots.finished++;
}

void slots_acknowledge(uint32_t ack) {
  while (slots.acked < ack) {
    slots.slot[slots.acked_at].state = SLOT_EMPTY;
    slots.slot[slots.acked_at].due = false;
    slots.acked_at = after(slots.acked_at);
    slots.acked++;
  }
}

struct slot *slots_result(uint32_t number) {
  uint8_t at = slots.acked_at;
  for (uint32_t n = slots.acked; n < slots.finished; n++) {
    if (n == number) {
      return &slots.slot[at];
    }
    at = after(at);
  }
  return NULL;
}

struct slot *slots_first_due(uint32_t *number) {
  uint8_t at = slots.acked_at;
  for (uint32_t n = slots.acked; n < slots.finished; n++) {
    if (slots.slot[at].due) {
      *number = n;
      return &slots.slot[at];
    }
    at = after(at);
  }
  return NULL;
}
