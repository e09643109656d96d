#include "requests.h"

#include <stddef.h>

#include "answers.h"
#include "bytes.h"
#include "edges.h"
#include "frame_in.h"
#include "observer.h"
#include "port.h"
#include "session.h"
#include "slots.h"
#include "step_frame.h"
#include "types.h"

#define BODY_AT 5u
#define CHECK_BYTES 4u
#define OPEN_HEAD_BYTES 19u
#define HELLO_LEAST_BYTES 2u

static struct request request;

static void refuse(uint8_t reason, uint16_t detail) {
  answer_nack(reason, request.type, request.session, detail);
}

/* A request whose body has a length of its own; refused where it differs. */
static bool has_length(uint16_t wanted) {
  if (request.length != wanted) {
    refuse(NACK_LENGTH, 0);
    return false;
  }
  return true;
}

/* The session of the frame must be the one in place; any frame of it ends the silence. */
static bool of_session(void) {
  if (session.number == 0 || request.session != session.number) {
    refuse(NACK_SESSION, 0);
    return false;
  }
  if (session.state == OPENED || session_live()) {
    countdown_set(&session.silence, session.silence_ms);
  }
  return true;
}

/* A later host may say more than this one knows of. */
static void hello(void) {
  if (request.length < HELLO_LEAST_BYTES) {
    refuse(NACK_LENGTH, 0);
  } else {
    answer_hello(request.session, request.body[1]);
  }
}

/* The offset of the first field out of range, or NO_FIELD. */
static uint16_t bad_open_field(void) {
  const uint8_t *body = request.body;
  uint16_t silence_ms = get16(body + 8);
  if (silence_ms < 100 || silence_ms > 10000) {
    return 8;
  }
  if (body[10] < 2) {
    return 10;
  }
  if (get16(body + 11) < 16) {
    return 11;
  }
  if (get32(body + 15) < 1) {
    return 15;
  }
  if (beyond(body + OPEN_HEAD_BYTES, BOARD_DRIVES)) {
    return OPEN_HEAD_BYTES;
  }
  if (beyond(body + OPEN_HEAD_BYTES + DRIVE_BYTES, BOARD_WATCHES)) {
    return (uint16_t)(OPEN_HEAD_BYTES + DRIVE_BYTES);
  }
  return NO_FIELD;
}

static void open(void) {
  if (!has_length((uint16_t)(OPEN_HEAD_BYTES + DRIVE_BYTES + WATCH_BYTES))) {
    return;
  }
  if (request.session != 0 && request.session == session.number) {
    (void)of_session();
    answer_status();
    return;
  }
  bool follows = get32(request.body) == identity.boot && get32(request.body + 4) == session.number;
  if (request.session == 0 || !follows) {
    refuse(NACK_SESSION, 0);
    return;
  }
  uint16_t bad = bad_open_field();
  if (bad != NO_FIELD) {
    refuse(NACK_FIELD, bad);
    return;
  }
  session_open(request.session, request.body);
  answer_status();
}

static void arm(void) {
  if (!has_length(0) || !of_session()) {
    return;
  }
  if (session.state == SAFE || session.state == TRIPPED) {
    refuse(NACK_STATE, 0);
    return;
  }
  if (session.state == OPENED) {
    session.state = READY;
  }
  answer_status();
}

static void stop(void) {
  if (!has_length(0) || !of_session()) {
    return;
  }
  if (session.state != SAFE && session.state != TRIPPED) {
    session_drop(CAUSE_STOP);
  }
  answer_status();
}

static void resume(void) {
  if (!has_length(4) || !of_session()) {
    return;
  }
  if (session.state == HELD && get32(request.body) + 1u == slots.finished) {
    session.state = READY;
  }
  answer_status();
}

static void beat(void) {
  if (!has_length(4) || !of_session()) {
    return;
  }
  uint32_t ack = get32(request.body);
  if (ack > slots.finished) {
    refuse(NACK_FIELD, 0);
    return;
  }
  slots_acknowledge(ack);
#if BOARD_EDGES > 0
  if (edges_held_below(slots.acked)) {
    edges_clear();
  }
#endif
  answer_status();
}

static void read(void) {
  if (!has_length(4) || !of_session()) {
    return;
  }
  struct slot *slot = slots_result(get32(request.body));
  if (slot != NULL) {
    slot->due = true;
    answers_wake();
  } else {
    answer_status();
  }
}

static void dispatch(void) {
  switch (request.type) {
    case TYPE_HELLO:
      hello();
      break;
    case TYPE_OPEN:
      open();
      break;
    case TYPE_ARM:
      arm();
      break;
    case TYPE_STOP:
      stop();
      break;
    case TYPE_RESUME:
      resume();
      break;
    case TYPE_BEAT:
      beat();
      break;
    case TYPE_READ:
      read();
      break;
#if BOARD_ENTRIES > 0
    case TYPE_SEQUENCE:
#endif
    case TYPE_STEP:
      if (has_length(step_frame_length(&request)) && of_session()) {
        step_frame_take(&request);
      }
      break;
#if BOARD_EDGES > 0
    case TYPE_READ_EDGES:
      if (has_length(6) && of_session()) {
        answer_edges(get32(request.body), get16(request.body + 4));
      }
      break;
#endif
    default:
      refuse(NACK_TYPE, 0);
      break;
  }
}

bool requests_handle(void) {
  if (answers_full()) {
    return false;
  }
  request.type = frame_in.bytes[0];
  request.session = get32(frame_in.bytes + 1);
  request.body = frame_in.bytes + BODY_AT;
  request.length = (uint16_t)(frame_in.length - BODY_AT - CHECK_BYTES);
  port_look();
  dispatch();
  return true;
}
