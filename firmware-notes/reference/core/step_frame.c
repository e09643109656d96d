#include "step_frame.h"

#include "answers.h"
#include "bytes.h"
#include "edges.h"
#include "port.h"
#include "sequence.h"
#include "session.h"
#include "slots.h"
#include "types.h"

#define FLAGS_AT 4u
#define LIMIT_AT 5u
#define WATCH_AT 9u
#define QUIET_AT 13u
#define DWELL_AT 17u
#define LEVEL_AT 21u
#define ENABLE_AT (LEVEL_AT + DRIVE_BYTES)
#define EXPECT_AT (LEVEL_AT + 2u * DRIVE_BYTES)
#define STEP_BYTES (EXPECT_AT + 3u * WATCH_BYTES)
#define ENTRY_BYTES (4u + 2u * DRIVE_BYTES)

#define FLAGS_KNOWN \
  (STEP_GATE | STEP_AUDIT | STEP_DWELL | (BOARD_EDGES > 0 ? (uint8_t)STEP_CAPTURE : 0u))

static bool alone; /* the step accepted last is a sequence, or captures: nothing runs beside it */

static void refuse(const struct request *request, uint8_t reason, uint16_t detail) {
  answer_nack(reason, request->type, request->session, detail);
}

static uint8_t entries(const struct request *request) {
  return request->type == TYPE_SEQUENCE ? request->body[STEP_BYTES] : 0;
}

static const uint8_t *entry_at(const struct request *request, uint8_t index) {
  return request->body + STEP_BYTES + 1u + (uint16_t)(index * ENTRY_BYTES);
}

uint16_t step_frame_length(const struct request *request) {
  if (request->type != TYPE_SEQUENCE) {
    return (uint16_t)STEP_BYTES;
  }
  uint16_t least = (uint16_t)(STEP_BYTES + 1u);
  return request->length < least ? least
                                 : (uint16_t)(least + (uint16_t)(entries(request) * ENTRY_BYTES));
}

static bool wants_to_be_alone(const struct request *request) {
  return request->type == TYPE_SEQUENCE || (request->body[FLAGS_AT] & FLAGS_KNOWN & STEP_CAPTURE);
}

static bool has_place(const struct request *request) {
  bool idle = slots.finished == slots.next;
  if (slots_next()->state != SLOT_EMPTY || (!idle && (alone || wants_to_be_alone(request)))) {
    return false;
  }
#if BOARD_EDGES > 0
  return !(edges_held() && (request->body[FLAGS_AT] & STEP_CAPTURE) != 0);
#else
  return true;
#endif
}

static uint8_t drives_of_byte(uint8_t index) {
  uint8_t rest = BOARD_DRIVES & 7;
  return index + 1 == DRIVE_BYTES && rest != 0 ? (uint8_t)((1u << rest) - 1u) : 0xFF;
}

/* Bits beyond the last drive are left to the test of fields. */
static bool drives_allowed(const uint8_t *enable) {
  uint8_t outside = 0;
  for (uint8_t i = 0; i < DRIVE_BYTES; i++) {
    outside |= (uint8_t)(enable[i] & (uint8_t)~session.allowed[i] & drives_of_byte(i));
  }
  return outside == 0;
}

static bool all_drives_allowed(const struct request *request) {
  bool allowed = drives_allowed(request->body + ENABLE_AT);
  for (uint8_t i = 0; i < entries(request) && allowed; i++) {
    allowed = drives_allowed(entry_at(request, i) + 4 + DRIVE_BYTES);
    port_look();
  }
  return allowed;
}

/* The offset of the first field of the step itself out of range, or NO_FIELD. */
static uint16_t bad_step_field(const uint8_t *body) {
  uint32_t watch_us = get32(body + WATCH_AT);
  uint32_t quiet_us = get32(body + QUIET_AT);
  if ((body[FLAGS_AT] & (uint8_t)~FLAGS_KNOWN) != 0) {
    return FLAGS_AT;
  }
  if (watch_us == 0) {
    return WATCH_AT;
  }
  if (quiet_us == 0 || quiet_us > watch_us) {
    return QUIET_AT;
  }
  if ((body[FLAGS_AT] & STEP_DWELL) != 0 && get32(body + DWELL_AT) > watch_us) {
    return DWELL_AT;
  }
  port_look();
  for (uint8_t at = LEVEL_AT; at < EXPECT_AT; at = (uint8_t)(at + DRIVE_BYTES)) {
    if (beyond(body + at, BOARD_DRIVES)) {
      return at;
    }
  }
  for (uint8_t at = (uint8_t)EXPECT_AT; at < STEP_BYTES; at = (uint8_t)(at + WATCH_BYTES)) {
    if (beyond(body + at, BOARD_WATCHES)) {
      return at;
    }
  }
  return NO_FIELD;
}

#if BOARD_ENTRIES > 0
static uint16_t bad_entry_field(const struct request *request) {
  uint8_t count = entries(request);
  if (request->type != TYPE_SEQUENCE) {
    return NO_FIELD;
  }
  if (count == 0 || count > BOARD_ENTRIES) {
    return (uint16_t)STEP_BYTES;
  }
  uint32_t watch_us = get32(request->body + WATCH_AT);
  uint32_t before_us = 0;
  for (uint8_t i = 0; i < count; i++) {
    const uint8_t *entry = entry_at(request, i);
    uint32_t at_us = get32(entry);
    uint16_t offset = (uint16_t)(entry - request->body);
    if (at_us <= before_us || at_us >= watch_us) {
      return offset;
    }
    if (beyond(entry + 4, BOARD_DRIVES)) {
      return (uint16_t)(offset + 4u);
    }
    if (beyond(entry + 4 + DRIVE_BYTES, BOARD_DRIVES)) {
      return (uint16_t)(offset + 4u + DRIVE_BYTES);
    }
    before_us = at_us;
    port_look();
  }
  return NO_FIELD;
}

static void queue_entries(const struct request *request) {
  sequence_clear();
  for (uint8_t i = 0; i < entries(request); i++) {
    const uint8_t *entry = entry_at(request, i);
    uint8_t on[DRIVE_BYTES_MOST];
    for (uint8_t k = 0; k < DRIVE_BYTES; k++) {
      on[k] = entry[4 + k] & entry[4 + DRIVE_BYTES + k];
    }
    sequence_add(get32(entry), on);
    port_look();
  }
}
#endif

static void queue(const uint8_t *body) {
  struct step *step = &slots_next()->of.step;
  step->flags = body[FLAGS_AT];
  step->limit_us = get32(body + LIMIT_AT);
  step->watch_us = get32(body + WATCH_AT);
  step->quiet_us = get32(body + QUIET_AT);
  step->dwell_us = get32(body + DWELL_AT);
  port_look();
  for (uint8_t i = 0; i < DRIVE_BYTES; i++) {
    step->on[i] = body[LEVEL_AT + i] & body[ENABLE_AT + i]; /* source only: 0 is released */
  }
  copy_set(step->expect, body + EXPECT_AT, WATCH_BYTES);
  copy_set(step->care, body + EXPECT_AT + WATCH_BYTES, WATCH_BYTES);
  copy_set(step->still, body + EXPECT_AT + 2u * WATCH_BYTES, WATCH_BYTES);
  port_look();
  slots_queue();
}

void step_frame_take(const struct request *request) {
  uint32_t number = get32(request->body);
  if (session.state == SAFE || session.state == TRIPPED) {
    refuse(request, NACK_STATE, 0);
    return;
  }
  if (number < slots.next) {
    answer_status();
    return;
  }
  if (number > slots.next) {
    refuse(request, NACK_ORDER, 0);
    return;
  }
  if (!has_place(request)) {
    refuse(request, NACK_SLOT, 0);
    return;
  }
  port_look();
  if (!all_drives_allowed(request)) {
    refuse(request, NACK_DRIVES, 0);
    return;
  }
  uint16_t bad = bad_step_field(request->body);
#if BOARD_ENTRIES > 0
  if (bad == NO_FIELD) {
    bad = bad_entry_field(request);
  }
#endif
  if (bad != NO_FIELD) {
    refuse(request, NACK_FIELD, bad);
    return;
  }
  alone = wants_to_be_alone(request);
#if BOARD_ENTRIES > 0
  queue_entries(request);
#endif
  queue(request->body);
}
