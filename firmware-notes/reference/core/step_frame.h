/* STEP and SEQUENCE: tested in the protocol's order, then queued. */
#ifndef BENCH_STEP_FRAME_H
#define BENCH_STEP_FRAME_H

#include "board.h"

/* A frame of the host. */
struct request {
  uint8_t type;
  uint32_t session;
  const uint8_t *body;
  uint16_t length; /* of the body */
};

#define NO_FIELD 0xFFFFu

/* How long the body of this STEP or SEQUENCE should be. */
uint16_t step_frame_length(const struct request *request);

/* Takes or refuses a step of the session in place, of the right length. */
void step_frame_take(const struct request *request);

#endif
