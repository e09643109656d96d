#include "frame_out.h"

#include "crc32.h"
#include "port.h"

#define CHECK_BYTES 4u
#define BLOCK_MOST 254u
#define SEALED_AT_ONCE 8u /* bytes in one go, so that a pass is worth its price */

enum stage { SEALING, BLOCK_START, IN_BLOCK, ENDING };

static struct {
  enum stage stage;
  bool more; /* another block follows */
  bool full; /* the block is of 254 bytes, and no zero is implied after it */
  uint8_t block;
  uint8_t *at;
  uint8_t *end; /* after the last byte written */
  uint32_t crc;
  uint8_t bytes[BOARD_REPLY];
} out;

bool frame_out_busy = false;

static inline void put(uint8_t value) {
  *out.end++ = value;
}

void frame_out_start(uint8_t type, uint32_t session) {
  out.end = out.bytes;
  put(type);
  frame_out_32(session);
}

void frame_out_8(uint8_t value) {
  put(value);
}

void frame_out_16(uint16_t value) {
  put((uint8_t)value);
  put((uint8_t)(value >> 8));
}

void frame_out_32(uint32_t value) {
  uint8_t *to = out.end;
  to[0] = (uint8_t)value;
  to[1] = (uint8_t)(value >> 8);
  to[2] = (uint8_t)(value >> 16);
  to[3] = (uint8_t)(value >> 24);
  out.end = to + 4;
  port_look();
}

void frame_out_set(const uint8_t *set, uint8_t bytes) {
  for (uint8_t i = 0; i < bytes; i++) {
    put(set[i]);
  }
  port_look();
}

uint16_t frame_out_room(void) {
  return (uint16_t)(BOARD_REPLY - CHECK_BYTES - (uint16_t)(out.end - out.bytes));
}

void frame_out_finish(void) {
  out.stage = SEALING;
  out.at = out.bytes;
  out.crc = CRC32_START;
  frame_out_busy = true;
}

static void seal(void) {
  for (uint8_t i = 0; i < SEALED_AT_ONCE && out.at < out.end; i++) {
    out.crc = crc32_add(out.crc, *out.at++);
    port_look();
  }
  if (out.at < out.end) {
    return;
  }
  frame_out_32(~out.crc);
  out.at = out.bytes;
  out.more = true;
  out.stage = BLOCK_START;
}

/* Bytes from here to the next zero, at most 254. */
static uint8_t run_length(void) {
  uint8_t run = 0;
  for (const uint8_t *at = out.at; at < out.end && *at != 0 && run < BLOCK_MOST; at++) {
    run++;
    if ((run & 15u) == 0) {
      port_look();
    }
  }
  return run;
}

static void end_block(void) {
  if (out.full) {
    out.more = out.at < out.end;
  } else if (out.at < out.end) {
    out.at++; /* the zero that the block stands for */
  } else {
    out.more = false;
  }
  out.stage = out.more ? BLOCK_START : ENDING;
}

void frame_out_work(void) {
  if (!frame_out_busy) {
    return;
  }
  if (out.stage == SEALING) {
    seal();
    return;
  }
  if (!port_can_send()) {
    return;
  }
  if (out.stage == BLOCK_START) {
    out.block = run_length();
    out.full = out.block == BLOCK_MOST;
    port_send((uint8_t)(out.block + 1u));
    out.stage = IN_BLOCK;
  } else if (out.stage == IN_BLOCK) {
    port_send(*out.at++);
    out.block--;
  } else {
    port_send(0);
    frame_out_busy = false;
    return;
  }
  if (out.block == 0) {
    end_block();
  }
}
