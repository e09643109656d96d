#include "fixture.h"

#include <string.h>

#include "bench.h"
#include "bytes.h"
#include "card.h"
#include "clock.h"
#include "control.h"
#include "port.h"

/* Passes in one sweep; what is left to do waits for the next, as on a chip. */
#define PASSES_MOST 8

struct channel fixture_wire;
uint32_t fixture_byte_us;
struct host_board host_board = {8, 8, 4, 0, 20};

static uint64_t now_us;
static uint64_t goal_us; /* less than a sweep ahead of now, between runs */
static uint64_t send_at_us;
static uint64_t receive_at_us;
static uint8_t on_now[DRIVE_BYTES_MOST];

uint64_t fixture_now_us(void) {
  return now_us;
}

bool fixture_drive_is_on(uint8_t drive) {
  return in_set(on_now, drive);
}

static uint16_t tick(void) {
  return (uint16_t)(now_us * TICKS_PER_US);
}

static void sample(uint8_t *lines) {
  static uint8_t last[WATCH_BYTES_MOST];
  if (!card_changed()) {
    memcpy(lines, last, WATCH_BYTES_MOST);
    return;
  }
  memset(lines, 0, WATCH_BYTES_MOST);
  for (uint8_t i = 0; i < BOARD_WATCHES; i++) {
    if (card_level(i)) {
      lines[i >> 3] |= (uint8_t)(1u << (i & 7u));
    }
  }
  memcpy(last, lines, WATCH_BYTES_MOST);
}

void fixture_reset(uint8_t cause) {
  uint8_t lines[WATCH_BYTES_MOST];
  port_release();
  identity.reset_cause = cause;
  identity.boot++;
  sample(lines);
  bench_begin(tick(), lines);
}

static void sweep(void) {
  uint8_t lines[WATCH_BYTES_MOST];
  card_run(now_us);
  sample(lines);
  changes_sample(tick(), lines);
  if (fixture_wire.in_at != fixture_wire.in_end) {
    bench_work = true;
  }
  for (int i = 0; i < PASSES_MOST && !bench_idle(); i++) {
    bench_pass();
  }
}

void fixture_run(uint64_t us) {
  goal_us += us;
  while (now_us + host_board.period_us <= goal_us) {
    now_us += host_board.period_us;
    sweep();
  }
}

/* Nothing changes while the core works: time moves from sweep to sweep. */
void port_look(void) {}

static void switch_to(const uint8_t *on) {
  for (uint8_t i = 0; i < BOARD_DRIVES; i++) {
    if (in_set(on, i) != in_set(on_now, i)) {
      on_now[i >> 3] ^= (uint8_t)(1u << (i & 7u));
      control_drive(i, in_set(on, i));
      card_drive(i, in_set(on, i), now_us);
    }
  }
}

void port_drives(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick) {
  switch_to(on);
  *first_tick = tick();
  *last_tick = tick();
}

void port_release(void) {
  static const uint8_t none[DRIVE_BYTES_MOST];
  switch_to(none);
}

bool port_receive(uint8_t *byte) {
  if (now_us < receive_at_us || !channel_take(&fixture_wire, byte)) {
    return false;
  }
  receive_at_us = now_us + fixture_byte_us;
  return true;
}

bool port_can_send(void) {
  return now_us >= send_at_us;
}

void port_send(uint8_t byte) {
  channel_give(&fixture_wire, &byte, 1);
  send_at_us = now_us + fixture_byte_us;
}
