#include "control.h"

#include <inttypes.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "board.h"
#include "card.h"
#include "fixture.h"

#define LINE_BYTES 512

static struct channel *answers; /* nothing is said before there is somebody to say it to */

static void say(const char *format, ...) __attribute__((format(printf, 1, 2)));
static void say(const char *format, ...) {
  char line[LINE_BYTES];
  if (answers == NULL) {
    return;
  }
  va_list arguments;
  va_start(arguments, format);
  int length = vsnprintf(line, sizeof line - 1, format, arguments);
  va_end(arguments);
  if (length > (int)sizeof line - 2) {
    length = (int)sizeof line - 2;
  }
  line[length] = '\n';
  channel_give(answers, line, (size_t)length + 1);
}

void control_drive(uint8_t drive, bool on) {
  say("drive %u %u at %" PRIu64, drive, on, fixture_now_us());
}

static void state(void) {
  char drives[BOARD_DRIVES_MOST + 1];
  char watches[BOARD_WATCHES_MOST + 1];
  for (uint8_t i = 0; i < BOARD_DRIVES; i++) {
    drives[i] = fixture_drive_is_on(i) ? '1' : '0';
  }
  drives[BOARD_DRIVES] = '\0';
  for (uint8_t i = 0; i < BOARD_WATCHES; i++) {
    watches[i] = card_level(i) ? '1' : '0';
  }
  watches[BOARD_WATCHES] = '\0';
  say("state at %" PRIu64 " drives %s watches %s", fixture_now_us(), drives, watches);
}

static void handle(const char *line) {
  unsigned watch;
  unsigned level;
  unsigned cause = 2;
  uint64_t us;
  int used = 0;
  size_t length = strlen(line);
  if (strcmp(line, "state") == 0) {
    state();
  } else if (strcmp(line, "reset") == 0 ||
             (sscanf(line, "reset %u%n", &cause, &used) == 1 && (size_t)used == length && cause <= 5)) {
    fixture_reset((uint8_t)cause);
    say("reset %u at %" PRIu64, cause, fixture_now_us());
  } else if (sscanf(line, "advance %" SCNu64 "%n", &us, &used) == 1 && (size_t)used == length) {
    fixture_run(us);
    say("advanced at %" PRIu64, fixture_now_us());
  } else if (sscanf(line, "set %u %u%n", &watch, &level, &used) == 2 && (size_t)used == length &&
             watch < BOARD_WATCHES && level <= 1) {
    card_force((uint8_t)watch, level == 1);
    say("set %u %u at %" PRIu64, watch, level, fixture_now_us());
  } else if (sscanf(line, "free %u%n", &watch, &used) == 1 && (size_t)used == length &&
             watch < BOARD_WATCHES) {
    card_free((uint8_t)watch);
    say("free %u at %" PRIu64, watch, fixture_now_us());
  } else if (strncmp(line, "card ", 5) == 0 && card_load(line + 5)) {
    for (unsigned i = 0; i < BOARD_DRIVES; i++) {
      if (fixture_drive_is_on((uint8_t)i)) {
        card_drive((uint8_t)i, true, fixture_now_us());
      }
    }
    say("card at %" PRIu64, fixture_now_us());
  } else if (strcmp(line, "quit") == 0) {
    answers->ended = true;
  } else {
    say("error: wanted state, reset [CAUSE], advance US, set WATCH LEVEL, free WATCH, card FILE or quit");
  }
}

void control_work(struct channel *control) {
  static char line[LINE_BYTES];
  static size_t length;
  uint8_t byte;
  answers = control;
  while (channel_take(control, &byte)) {
    if (byte != '\n') {
      if (length < sizeof line - 1) {
        line[length++] = (char)byte;
      }
      continue;
    }
    line[length] = '\0';
    length = 0;
    handle(line);
  }
}
