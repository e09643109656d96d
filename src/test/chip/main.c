/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench.h"

#include <getopt.h>
#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define CYCLES_PER_MS (CLOCK_HZ / 1000)
#define CHUNK (CYCLES_PER_MS / 2) /* between two looks at the streams */

static bool real_pace;
static avr_cycle_count_t paced_from;
static struct timespec paced_since;
static avr_cycle_count_t budget = 400ull * CYCLES_PER_MS;

noreturn void die(const char *what, const char *detail) {
  fprintf(stderr, "chip-bench: %s %s\n", what, detail);
  exit(1);
}

static void keep_pace_from_now(void) {
  paced_from = chip->cycle;
  clock_gettime(CLOCK_MONOTONIC, &paced_since);
}

static avr_cycle_count_t allowed(void) {
  if (!real_pace) {
    return uart_busy() ? NEVER : uart_stats().last_byte + budget;
  }
  struct timespec now;
  clock_gettime(CLOCK_MONOTONIC, &now);
  int64_t ns = (int64_t)(now.tv_sec - paced_since.tv_sec) * 1000000000 + now.tv_nsec - paced_since.tv_nsec;
  return paced_from + (avr_cycle_count_t)(ns * (CLOCK_HZ / 1000000) / 1000);
}

static void reset(const char *how) {
  if (strcmp(how, "pin") == 0) {
    chip_reset(0x02, 1);
  } else if (strcmp(how, "power") == 0) {
    chip_reset(0x01, 65);
  } else if (strcmp(how, "brown-out") == 0) {
    chip_reset(0x04, 65);
  } else {
    die("reset pin, power or brown-out, not", how);
  }
  keep_pace_from_now();
}

static void stats(void) {
  struct uart_stats uart = uart_stats();
  talk_say("ok cycle %" PRIu64 " overruns %u garbled %u unsent %u received %lu sent %lu resets %u stack %u last %" PRIu64
           " jtag %u collisions %u loads %lu longest %" PRIu64,
           chip->cycle, uart.overruns, uart.garbled, uart.lost_sent, uart.received, uart.sent, chip_resets(),
           chip_stack_used(), uart.last_byte, jtag_is_on(), shift_collisions(),
           shift_loads(), shift_take_longest());
}

static void take(char *line) {
  if (strcmp(line, "quit") == 0) {
    exit(0);
  } else if (strcmp(line, "stats") == 0) {
    stats();
  } else if (strcmp(line, "pace real") == 0 || strcmp(line, "pace gated") == 0) {
    real_pace = line[5] == 'r';
    keep_pace_from_now();
    talk_say("ok");
  } else if (strncmp(line, "reset ", 6) == 0) {
    reset(line + 6);
    talk_say("ok");
  } else if (strncmp(line, "go ", 3) == 0) {
    step_go(line + 3);
  } else if (strcmp(line, "hang") == 0) {
    chip_hang();
    talk_say("ok");
  } else if (strncmp(line, "edges ", 6) == 0) {
    talk_say("ok %u", edges_write(line + 6));
  } else {
    die("what is", line);
  }
}

static void run(void) {
  for (;;) {
    avr_cycle_count_t limit = allowed();
    bool waits = limit <= chip->cycle;
    talk_take_commands(waits ? 1 : 0, pty_fd());
    pty_poll();
    if (waits) {
      continue;
    }
    if (limit > chip->cycle + CHUNK) {
      limit = chip->cycle + CHUNK;
    }
    if (limit > talk_next_due()) {
      limit = talk_next_due();
    }
    chip_run_to(limit);
    if (chip->cycle >= talk_next_due()) {
      talk_ask("due", chip->cycle, 0, false);
    }
  }
}

int main(int argc, char **argv) {
  static const struct option options[] = {
      {"elf", required_argument, NULL, 'e'},    {"mcu", required_argument, NULL, 'm'},
      {"pty", required_argument, NULL, 'p'},    {"drives", required_argument, NULL, 'd'},
      {"watches", required_argument, NULL, 'w'}, {"heap", required_argument, NULL, 'h'},
      {"budget", required_argument, NULL, 'b'}, {"shift", required_argument, NULL, 's'},
      {NULL, 0, NULL, 0}};
  const char *value[128] = {0};
  for (int option; (option = getopt_long(argc, argv, "", options, NULL)) != -1;) {
    if (option == '?') {
      return 2;
    }
    value[option] = optarg;
  }
  for (const char *need = value['s'] == NULL ? "emdw" : "em"; *need != 0; need++) {
    if (value[(int)*need] == NULL) {
      die("wanted --elf, --mcu, and --drives and --watches or --shift", "");
    }
  }
  if (value['b'] != NULL) {
    budget = strtoull(value['b'], NULL, 0) * CYCLES_PER_MS;
  }
  talk_begin(take);
  chip_load(value['e'], value['m'], value['h'] == NULL ? 0 : (unsigned)strtoul(value['h'], NULL, 0));
  pins_begin(value['d'], value['w']);
  jtag_begin(value['m']);
  shift_begin(value['s']);
  bool in_step = value['p'] == NULL;
  uart_begin(in_step ? step_send : pty_send);
  if (!in_step) {
    pty_begin(value['p']);
  }
  keep_pace_from_now();
  talk_say("ready");
  if (in_step) {
    talk_serve();
  }
  run();
}
