/* Frames from the line: COBS undone and the check computed byte by byte. */
#ifndef BENCH_FRAME_IN_H
#define BENCH_FRAME_IN_H

#include "board.h"

struct frame_in {
  uint32_t crc;
  uint32_t whole; /* frames since reset */
  uint32_t damaged;
  uint16_t length; /* bytes decoded so far */
  uint8_t block; /* bytes left of this COBS block */
  bool zero_due; /* the block before ends in a zero, if another follows */
  bool started;
  bool bad;
  uint8_t bytes[BOARD_FRAME]; /* type, session, body, check */
};

extern struct frame_in frame_in;

/* The least a frame can be: type, session and check. */
#define FRAME_LEAST 9u

void frame_in_begin(void);

/* Takes one byte; true when it ended a whole frame, which then lies in frame_in.bytes until the next byte. */
bool frame_in_take(uint8_t byte);

#endif
