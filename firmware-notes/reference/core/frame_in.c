#include "frame_in.h"

#include "crc32.h"

struct frame_in frame_in;

static void start_anew(void) {
  frame_in.crc = CRC32_START;
  frame_in.length = 0;
  frame_in.block = 0;
  frame_in.zero_due = false;
  frame_in.started = false;
  frame_in.bad = false;
}

void frame_in_begin(void) {
  frame_in.whole = 0;
  frame_in.damaged = 0;
  start_anew();
}

static void add(uint8_t byte) {
  if (frame_in.length >= BOARD_FRAME) {
    frame_in.bad = true;
    return;
  }
  frame_in.bytes[frame_in.length++] = byte;
  frame_in.crc = crc32_add(frame_in.crc, byte);
}

static bool end(void) {
  if (!frame_in.started) {
    return false; /* zero after zero */
  }
  bool whole = !frame_in.bad && frame_in.block == 0 && frame_in.length >= FRAME_LEAST &&
               frame_in.crc == CRC32_RESIDUE;
  uint16_t length = frame_in.length;
  start_anew();
  if (whole) {
    frame_in.whole++;
    frame_in.length = length;
  } else {
    frame_in.damaged++;
  }
  return whole;
}

bool frame_in_take(uint8_t byte) {
  if (byte == 0) {
    return end();
  }
  if (!frame_in.started) {
    start_anew();
    frame_in.started = true;
  }
  if (frame_in.block > 0) {
    frame_in.block--;
    add(byte);
    return false;
  }
  if (frame_in.zero_due) {
    add(0);
  }
  frame_in.block = (uint8_t)(byte - 1);
  frame_in.zero_due = byte != 0xFF;
  return false;
}
