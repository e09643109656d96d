#include "clock.h"

struct clock bench_clock;

void clock_begin(uint16_t tick) {
  bench_clock.now.low = 0;
  bench_clock.now.high = 0;
  bench_clock.tick = tick;
}

uint16_t clock_forward(uint16_t tick) {
  uint16_t ticks = (uint16_t)(tick - bench_clock.tick);
  if (ticks >= 0x8000u) {
    return 0; /* already past: two events of one instant */
  }
  uint16_t passed_us = ticks / TICKS_PER_US;
  bench_clock.tick = (uint16_t)(bench_clock.tick + passed_us * TICKS_PER_US);
  bench_clock.now.low += passed_us;
  if (bench_clock.now.low < passed_us) {
    bench_clock.now.high++;
  }
  return passed_us;
}

int16_t clock_until(uint16_t tick) {
  return (int16_t)((int16_t)(tick - bench_clock.tick) / (int16_t)TICKS_PER_US);
}

bool countdown_take(struct countdown *c) {
  bool ran_out = false;
  while (c->part_us >= 1000u) {
    c->part_us = (uint16_t)(c->part_us - 1000u);
    if (c->left_ms != 0 && --c->left_ms == 0) {
      ran_out = true;
    }
  }
  return ran_out;
}
