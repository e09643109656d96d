#include "answers.h"

#include <stddef.h>

#include "bench.h"
#include "edges.h"
#include "frame_out.h"
#include "port.h"
#include "replies.h"
#include "results.h"
#include "session.h"
#include "slots.h"
#include "types.h"

#ifdef BOARD_ANSWERS
#define WAITING_MOST BOARD_ANSWERS
#else
#define WAITING_MOST 4u
#endif

/* An answer is written when it is sent, so that it says what is so then. */
struct answer {
  uint8_t type;
  uint8_t reason;
  uint8_t refused;
  uint16_t detail;
  uint32_t session;
  uint32_t number;
};

static struct {
  uint8_t count;
  struct answer answer[WAITING_MOST];
} waiting;

static bool due; /* there may be a frame to send */
static bool result_went; /* last, so that it is an answer's turn */

void answers_begin(void) {
  due = false;
  result_went = false;
  waiting.count = 0;
  results_begin();
}

bool answers_full(void) {
  return waiting.count == WAITING_MOST;
}

void answers_wake(void) {
  due = true;
  bench_work = true;
}

static struct answer *promise(uint8_t type) {
  answers_wake();
  struct answer *answer = &waiting.answer[waiting.count++];
  answer->type = type;
  return answer;
}

void answer_hello(uint32_t nonce, uint8_t minor) {
  struct answer *answer = promise(TYPE_HELLO_R);
  answer->session = nonce;
  answer->detail = minor;
}

void answer_status(void) {
  (void)promise(TYPE_STATUS);
}

void answer_nack(uint8_t reason, uint8_t type, uint32_t frame_session, uint16_t detail) {
  struct answer *answer = promise(TYPE_NACK);
  answer->session = frame_session;
  answer->reason = reason;
  answer->refused = type;
  answer->detail = detail;
}

void answer_edges(uint32_t number, uint16_t from) {
  struct answer *answer = promise(TYPE_EDGES);
  answer->number = number;
  answer->detail = from;
}

static void write(const struct answer *answer) {
  switch (answer->type) {
    case TYPE_HELLO_R:
      reply_hello(answer->session, (uint8_t)answer->detail);
      break;
    case TYPE_NACK:
      reply_nack(answer->session, answer->reason, answer->refused, answer->detail);
      break;
#if BOARD_EDGES > 0
    case TYPE_EDGES:
      if (edges_held_of(answer->number) && slots_result(answer->number) != NULL) {
        frame_out_start(TYPE_EDGES, session.number);
        edges_write(answer->detail);
        frame_out_finish();
        break;
      }
      reply_status();
      break;
#endif
    default:
      reply_status();
      break;
  }
}

static bool result(void) {
  result_went = results_work();
  return result_went;
}

/*
 * Results and answers take turns. Were results always first, short steps would leave no room for answers; frames could
 * no longer be taken in while those wait, and the host would send again what only lies in the receive buffer.
 */
bool answers_work(void) {
  if (!due) {
    return false;
  }
  bool answers = session.status_due || waiting.count != 0;
  if (!(answers && result_went) && result()) {
    return true;
  }
  result_went = false;
  if (session.status_due) {
    session.status_due = false;
    reply_status();
    return true;
  }
  if (waiting.count == 0) {
    due = false; /* finding that out was work enough for one go */
    return true;
  }
  write(&waiting.answer[0]);
  waiting.count--;
  for (uint8_t i = 0; i < waiting.count; i++) {
    waiting.answer[i] = waiting.answer[i + 1];
    port_look();
  }
  return true;
}
