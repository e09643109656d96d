#include "replies.h"

#include <stddef.h>

#include "changes.h"
#include "frame_in.h"
#include "frame_out.h"
#include "observer.h"
#include "port.h"
#include "results.h"
#include "session.h"
#include "slots.h"
#include "types.h"

#define NAME_MOST 31u

#define CAPABILITY_SEQUENCES (BOARD_ENTRIES > 0 ? 4u : 0u)
#define CAPABILITY_EDGES (BOARD_EDGES > 0 ? 8u : 0u)

struct identity identity;

static void name(void) {
  uint8_t length = 0;
  while (length < NAME_MOST && identity.name[length] != '\0') {
    length++;
  }
  frame_out_8(length);
  for (uint8_t i = 0; i < length; i++) {
    frame_out_8((uint8_t)identity.name[i]);
    if ((i & 3u) == 3u) {
      port_look();
    }
  }
}

void reply_hello(uint32_t nonce, uint8_t host_minor) {
  uint8_t minor = host_minor;
  if (minor > PROTOCOL_MINOR) {
    minor = PROTOCOL_MINOR;
  }
  uint16_t worst_us = results_worst_blind_us();
  frame_out_start(TYPE_HELLO_R, nonce);
  frame_out_8('B');
  frame_out_8('E');
  frame_out_8('N');
  frame_out_8('C');
  port_look();
  frame_out_8(PROTOCOL_MAJOR);
  frame_out_8(minor);
  frame_out_8(FIRMWARE_MAJOR);
  frame_out_8(FIRMWARE_MINOR);
  frame_out_8(FIRMWARE_PATCH);
  frame_out_8(identity.reset_cause);
  frame_out_32(identity.boot);
  frame_out_set(identity.id, sizeof identity.id);
  frame_out_8(BOARD_DRIVES);
  frame_out_8(BOARD_WATCHES);
  frame_out_8(BOARD_SLOTS);
  frame_out_16(BOARD_FRAME);
  frame_out_32(BOARD_PERIOD_NS);
  frame_out_16(worst_us > BOARD_BLIND_US ? worst_us : BOARD_BLIND_US);
  frame_out_32(BOARD_CAPABILITIES | CAPABILITY_SEQUENCES | CAPABILITY_EDGES);
  name();
  frame_out_32(session.number);
  if (minor >= 1) {
    frame_out_8(BOARD_ENTRIES);
    frame_out_16(BOARD_EDGES);
  }
  frame_out_finish();
}

/* The time of the last sample, which may be some way ahead of what has been digested. */
static void put_now(void) {
  int16_t ahead_us = clock_until(changes.last_tick);
  uint32_t low = bench_clock.now.low;
  uint32_t high = bench_clock.now.high;
  if (ahead_us > 0) {
    low += (uint16_t)ahead_us;
    if (low < (uint16_t)ahead_us) {
      high++;
    }
  }
  frame_out_32(low);
  frame_out_32(high);
}

void reply_status(void) {
  frame_out_start(TYPE_STATUS, session.number);
  frame_out_8(session.state);
  frame_out_8(session.cause);
  frame_out_8(session.chattering);
  frame_out_32(identity.boot);
  frame_out_32(slots.next);
  frame_out_32(slots.finished);
  frame_out_32(slots.acked);
  put_now();
  frame_out_32(frame_in.whole);
  frame_out_32(frame_in.damaged);
  frame_out_set(session.on, DRIVE_BYTES);
  frame_out_set(observer.levels, WATCH_BYTES);
  frame_out_set(observer.stirred, WATCH_BYTES);
  frame_out_finish();
}

void reply_nack(uint32_t frame_session, uint8_t reason, uint8_t type, uint16_t detail) {
  frame_out_start(TYPE_NACK, frame_session);
  frame_out_8(reason);
  frame_out_8(type);
  frame_out_32(slots.next);
  frame_out_16(detail);
  frame_out_finish();
}
