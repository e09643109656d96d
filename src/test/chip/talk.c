/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench.h"

#include <inttypes.h>
#include <poll.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static FILE *answers;
static command_taker take;
static char buffer[16384];
static size_t filled;
static avr_cycle_count_t due = 0; /* at first the card says what levels there are before anything is driven */

void talk_begin(command_taker taker) {
  take = taker;
  answers = fdopen(dup(STDOUT_FILENO), "w"); /* the simulator library prints to stdout as it likes */
  if (answers == NULL || dup2(STDERR_FILENO, STDOUT_FILENO) < 0) {
    die("no standard output", "");
  }
}

void talk_say(const char *format, ...) {
  va_list values;
  va_start(values, format);
  vfprintf(answers, format, values);
  va_end(values);
  fputc('\n', answers);
  fflush(answers);
}

/* The next whole line that has come, or none. Its text is good until the next call. */
static char *next_line(bool wait) {
  static char line[sizeof buffer];
  for (;;) {
    char *end = memchr(buffer, '\n', filled);
    if (end != NULL) {
      size_t length = (size_t)(end - buffer);
      memcpy(line, buffer, length);
      line[length] = 0;
      filled -= length + 1;
      memmove(buffer, end + 1, filled);
      return line;
    }
    struct pollfd in = {.fd = STDIN_FILENO, .events = POLLIN};
    if (!wait && poll(&in, 1, 0) == 0) {
      return NULL;
    }
    ssize_t got = read(STDIN_FILENO, buffer + filled, sizeof buffer - filled);
    if (got <= 0) {
      exit(0); /* whoever started this is gone */
    }
    filled += (size_t)got;
  }
}

static bool take_answer(const char *line) {
  char when[32];
  uint64_t levels;
  if (sscanf(line, "next %31s %" SCNx64, when, &levels) != 2) {
    return false;
  }
  due = when[0] == '-' ? NEVER : strtoull(when, NULL, 10);
  pins_watch(levels);
  return true;
}

void talk_ask(const char *what, avr_cycle_count_t cycle, uint64_t levels, bool with_levels) {
  if (with_levels) {
    talk_say("%s %" PRIu64 " %" PRIx64, what, cycle, levels);
  } else {
    talk_say("%s %" PRIu64, what, cycle);
  }
  char *line;
  while (!take_answer(line = next_line(true))) {
    take(line);
  }
}

avr_cycle_count_t talk_next_due(void) {
  return due;
}

/* Nothing happens but what is asked for. */
noreturn void talk_serve(void) {
  for (;;) {
    take(next_line(true));
  }
}

void talk_take_commands(int timeout_ms, int other_fd) {
  if (timeout_ms != 0) {
    struct pollfd both[] = {
        {.fd = STDIN_FILENO, .events = POLLIN}, {.fd = other_fd, .events = POLLIN}};
    (void)poll(both, 2, timeout_ms);
  }
  for (char *line = next_line(false); line != NULL; line = next_line(false)) {
    take(line);
  }
}
