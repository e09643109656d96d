#include "bed.h"

#include <stdio.h>
#include <string.h>

#include "bench.h"
#include "changes.h"
#include "clock.h"
#include "crc32.h"
#include "port.h"

#define GRID_US 29u
#define PASSES 20000

struct bed bed;
int bed_failures;

static const uint8_t *incoming;
static size_t incoming_left;
static size_t taken;

static uint16_t tick(void) {
  return (uint16_t)(bed.now_us * TICKS_PER_US);
}

void bed_begin(uint32_t boot, const char *name, uint64_t now_us) {
  memset(&bed, 0, sizeof bed);
  taken = 0;
  identity.boot = boot;
  identity.name = name;
  identity.reset_cause = 1;
  bench_begin(0, &bed.lines);
  bed_run_to(now_us);
}

void bed_work(void) {
  bench_work = true;
  changes_sample(tick(), &bed.lines);
  for (int i = 0; i < PASSES; i++) {
    if (bench_idle()) {
      bench_time_tick = (uint16_t)(bench_time_tick - bench_time_ticks); /* deadlines are looked at now */
      bench_pass();
      if (bench_idle()) {
        break;
      }
    }
    bench_pass();
  }
  bench_time_tick = (uint16_t)(tick() - bench_time_ticks);
  bench_pass();
  bench_pass();
}

void bed_receive(const uint8_t *bytes, size_t count) {
  incoming = bytes;
  incoming_left = count;
  bed_work();
}

void bed_run_to(uint64_t us) {
  while (bed.now_us < us) {
    bed.now_us += us - bed.now_us < GRID_US ? us - bed.now_us : GRID_US;
    changes_sample(tick(), &bed.lines);
    for (int i = 0; i < 64 && !bench_idle(); i++) {
      bench_pass();
    }
  }
}

/* COBS (Cheshire & Baker 1999), for frames of less than 254 bytes. */
static size_t encode(const uint8_t *plain, size_t length, uint8_t *line) {
  size_t code_at = 0;
  size_t end = 1;
  for (size_t i = 0; i < length; i++) {
    if (plain[i] != 0) {
      line[end++] = plain[i];
    } else {
      line[code_at] = (uint8_t)(end - code_at);
      code_at = end++;
    }
  }
  line[code_at] = (uint8_t)(end - code_at);
  line[end++] = 0;
  return end;
}

void bed_frame(uint8_t type, uint32_t session, const uint8_t *body, size_t length) {
  uint8_t plain[300];
  uint8_t line[310];
  uint32_t crc = CRC32_START;
  plain[0] = type;
  for (int i = 0; i < 4; i++) {
    plain[1 + i] = (uint8_t)(session >> (8 * i));
  }
  memcpy(plain + 5, body, length);
  for (size_t i = 0; i < length + 5; i++) {
    crc = crc32_add(crc, plain[i]);
  }
  for (int i = 0; i < 4; i++) {
    plain[length + 5 + (size_t)i] = (uint8_t)(~crc >> (8 * i));
  }
  bed_receive(line, encode(plain, length + 9, line));
}

size_t bed_take(uint8_t *plain) {
  size_t length = 0;
  if (taken == bed.sent) {
    return 0;
  }
  while (bed.out[taken] != 0) {
    uint8_t code = bed.out[taken++];
    for (uint8_t i = 1; i < code; i++) {
      plain[length++] = bed.out[taken++];
    }
    if (code != 0xFF && bed.out[taken] != 0) {
      plain[length++] = 0;
    }
  }
  taken++;
  return length - 4;
}

void bed_check(bool well, const char *what, int line) {
  if (!well) {
    printf("line %d: not so: %s\n", line, what);
    bed_failures++;
  }
}

void port_look(void) {}

void port_drives(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick) {
  bed.drives = on[0];
  bed.switchings++;
  *first_tick = tick();
  *last_tick = (uint16_t)(tick() + bed.skew_ticks);
}

void port_release(void) {
  bed.drives = 0;
}

bool port_receive(uint8_t *byte) {
  if (incoming_left == 0) {
    return false;
  }
  incoming_left--;
  *byte = *incoming++;
  return true;
}

bool port_can_send(void) {
  return true;
}

void port_send(uint8_t byte) {
  if (bed.sent < BED_BYTES) {
    bed.out[bed.sent++] = byte;
  }
}
