/*
 * The reference fixture as a program: the same core as on the chips, with a scripted card in place of lines.
 */
#include <errno.h>
#include <getopt.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "board.h"
#include "card.h"
#include "control.h"
#include "fixture.h"
#include "port.h"

#define LAG_MOST_US 100000u /* a program that was kept from running longer than this has not lived that time */
#define SIMULATED 1u

struct options {
  const char *wire;
  const char *control;
  const char *card;
  bool own_time;
  unsigned long speed;
  unsigned long cause;
  unsigned long boot;
};

static struct options options = {"stdio", NULL, NULL, true, 1, 1, 0};

static const char usage[] =
    "usage: bench-fixture [options]\n"
    "  --drives N --watches N --slots K   what the board has (8, 8, 4); at most 255, 128, 16\n"
    "  --card FILE        what the card does, one rule a line\n"
    "  --wire WHERE       the line to the host: stdio, fd:N, pty, pty:LINK or unix:PATH (stdio)\n"
    "  --control WHERE    text commands, in the same words (none)\n"
    "  --time real|control   time runs by itself, or only by the command 'advance' (real)\n"
    "  --speed N          that many times as fast as the wall clock (1)\n"
    "  --period US        sampling period (20)\n"
    "  --baud N           pace of the line, 0 for none (250000)\n"
    "  --id HEX           board id, 16 digits, first byte first (0)\n"
    "  --name NAME        board name (host port)\n"
    "  --boot N --cause N   number of the first boot (1), and its reset cause (1)\n"
    "  --as-real          does not say that the card is simulated; for tests alone\n";

static unsigned long number(const char *text, unsigned long least, unsigned long most) {
  char *end;
  errno = 0;
  unsigned long value = strtoul(text, &end, 10);
  if (errno != 0 || end == text || *end != '\0' || value < least || value > most) {
    fprintf(stderr, "'%s': wanted a number from %lu to %lu\n", text, least, most);
    exit(2);
  }
  return value;
}

static void read_id(const char *text) {
  for (size_t i = 0; i < sizeof identity.id; i++) {
    unsigned value;
    if (strlen(text) != 2 * sizeof identity.id || sscanf(text + 2 * i, "%2x", &value) != 1) {
      fprintf(stderr, "'%s': wanted 16 hexadecimal digits\n", text);
      exit(2);
    }
    identity.id[i] = (uint8_t)value;
  }
}

static void read_time(const char *text) {
  options.own_time = strcmp(text, "real") == 0;
  if (!options.own_time && strcmp(text, "control") != 0) {
    fprintf(stderr, "'%s': wanted real or control\n", text);
    exit(2);
  }
}

static void take_option(int option, const char *value) {
  switch (option) {
    case 'd':
      host_board.drives = (uint8_t)number(value, 1, BOARD_DRIVES_MOST);
      break;
    case 'w':
      host_board.watches = (uint8_t)number(value, 1, BOARD_WATCHES_MOST);
      break;
    case 'k':
      host_board.slots = (uint8_t)number(value, 2, BOARD_SLOTS_MOST);
      break;
    case 'c':
      options.card = value;
      break;
    case 'l':
      options.wire = value;
      break;
    case 'o':
      options.control = value;
      break;
    case 't':
      read_time(value);
      break;
    case 's':
      options.speed = number(value, 1, 1000);
      break;
    case 'p':
      host_board.period_us = (uint32_t)number(value, 1, 1000);
      break;
    case 'b': {
      unsigned long baud = number(value, 0, 10000000);
      fixture_byte_us = baud == 0 ? 0 : (uint32_t)(10000000ul / baud);
      break;
    }
    case 'i':
      read_id(value);
      break;
    case 'n':
      identity.name = value;
      break;
    case 'B':
      options.boot = number(value, 0, UINT32_MAX) - 1; /* a reset counts up */
      break;
    case 'C':
      options.cause = number(value, 0, 5);
      break;
    case 'r':
      host_board.capabilities &= ~SIMULATED;
      break;
    default:
      fputs(usage, stderr);
      exit(2);
  }
}

static void read_options(int count, char **arguments) {
  static const struct option known[] = {
      {"drives", 1, NULL, 'd'}, {"watches", 1, NULL, 'w'}, {"slots", 1, NULL, 'k'},
      {"card", 1, NULL, 'c'},   {"wire", 1, NULL, 'l'},    {"control", 1, NULL, 'o'},
      {"time", 1, NULL, 't'},   {"speed", 1, NULL, 's'},   {"period", 1, NULL, 'p'},
      {"baud", 1, NULL, 'b'},   {"id", 1, NULL, 'i'},      {"name", 1, NULL, 'n'},
      {"boot", 1, NULL, 'B'},   {"cause", 1, NULL, 'C'},   {"as-real", 0, NULL, 'r'},
      {NULL, 0, NULL, 0}};
  identity.name = "host port";
  host_board.capabilities = SIMULATED;
  fixture_byte_us = 40;
  int option;
  while ((option = getopt_long(count, arguments, "", known, NULL)) != -1) {
    take_option(option, optarg);
  }
  if (optind != count) {
    fputs(usage, stderr);
    exit(2);
  }
}

static uint64_t wall_us(void) {
  struct timespec now;
  (void)clock_gettime(CLOCK_MONOTONIC, &now);
  return (uint64_t)now.tv_sec * 1000000u + (uint64_t)now.tv_nsec / 1000u;
}

/* Waits for a byte, a command, or a millisecond; longer where time does not run by itself. */
static void wait(const struct channel *wire, const struct channel *control) {
  struct pollfd asked[2] = {
      {.fd = wire->in >= 0 ? wire->in : wire->listener, .events = POLLIN},
      {.fd = control->in >= 0 ? control->in : control->listener, .events = POLLIN}};
  bool read = wire->in_at == wire->in_end && control->in_at == control->in_end;
  if (read && wire->out_at == wire->out_end && control->out_at == control->out_end) {
    (void)poll(asked, 2, options.own_time ? 1 : 100);
  }
}

static void run(struct channel *control) {
  uint64_t lived_us = wall_us();
  while (!fixture_wire.ended && !control->ended) {
    wait(&fixture_wire, control);
    channel_work(&fixture_wire);
    channel_work(control);
    if (options.control != NULL) {
      control_work(control);
    }
    if (options.own_time) {
      uint64_t us = wall_us();
      if (us - lived_us > LAG_MOST_US) {
        lived_us = us - LAG_MOST_US;
      }
      fixture_run((us - lived_us) * options.speed);
      lived_us = us;
    }
    channel_work(&fixture_wire);
    channel_work(control);
  }
}

int main(int count, char **arguments) {
  static struct channel control = {.listener = -1, .in = -1, .out = -1};
  (void)signal(SIGPIPE, SIG_IGN);
  read_options(count, arguments);
  if ((options.card != NULL && !card_load(options.card)) ||
      !channel_open(&fixture_wire, options.wire) ||
      (options.control != NULL && !channel_open(&control, options.control))) {
    return 2;
  }
  if (*channel_terminal() != '\0') {
    fprintf(stderr, "terminal %s\n", channel_terminal());
  }
  identity.boot = (uint32_t)options.boot;
  fixture_reset((uint8_t)options.cause);
  run(&control);
  return 0;
}
