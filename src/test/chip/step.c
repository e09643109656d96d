/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The line in step with whoever started this: time goes on only when it is told to, and what the chip sent comes with
 * the answer. Bytes are handed on at the end of a frame, as adapters do that know an event character.
 */
#include "bench.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

#define MOST 512u
#define EVENT_CHARACTER 0u

static uint8_t sent[MOST];
static unsigned count;
static bool hand_on;

void step_send(uint8_t byte) {
  sent[count++] = byte;
  hand_on = hand_on || byte == EVENT_CHARACTER || count == MOST;
}

bool step_stops(void) {
  return hand_on;
}

static int digit(char c) {
  return c >= '0' && c <= '9' ? c - '0' : c >= 'a' && c <= 'f' ? c - 'a' + 10 : -1;
}

static void put(const char *hex) {
  for (; digit(hex[0]) >= 0 && digit(hex[1]) >= 0; hex += 2) {
    uart_put((uint8_t)(digit(hex[0]) << 4 | digit(hex[1])));
  }
  if (*hex != 0) {
    die("not bytes in hexadecimal:", hex);
  }
}

static void answer(void) {
  char hex[2 * MOST + 1];
  hex[0] = 0;
  for (unsigned i = 0; i < count; i++) {
    snprintf(hex + 2 * i, 3, "%02x", sent[i]);
  }
  count = 0;
  hand_on = false;
  talk_say("ok %" PRIu64 " %s", chip->cycle, hex);
}

/* CYCLE, and bytes to put on the line now. */
void step_go(char *text) {
  char *rest;
  avr_cycle_count_t until = strtoull(text, &rest, 10);
  if (*rest == ' ') {
    put(rest + 1);
  }
  while (chip->cycle < until && !hand_on) {
    avr_cycle_count_t due = talk_next_due();
    chip_run_to(due < until ? due : until);
    if (chip->cycle >= talk_next_due()) {
      talk_ask("due", chip->cycle, 0, false);
    }
  }
  answer();
}
