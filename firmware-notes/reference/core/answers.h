/* What is to be sent: answers in the order asked, results as steps end, and a STATUS of the fixture's own accord. */
#ifndef BENCH_ANSWERS_H
#define BENCH_ANSWERS_H

#include "board.h"

enum nack_reason {
  NACK_TYPE = 1,
  NACK_LENGTH,
  NACK_SESSION,
  NACK_STATE,
  NACK_ORDER,
  NACK_SLOT,
  NACK_DRIVES,
  NACK_FIELD
};

void answers_begin(void);

/* True when no more answers can be promised: the frame that wants one has to wait. */
bool answers_full(void);

void answer_hello(uint32_t nonce, uint8_t minor);
void answer_status(void);
void answer_nack(uint8_t reason, uint8_t type, uint32_t frame_session, uint16_t detail);
void answer_edges(uint32_t number, uint16_t from);

/* Says that a frame is due. */
void answers_wake(void);

/* Fills in the next frame that is due, the one before having gone out; false when there was nothing to do. */
bool answers_work(void);

#endif
