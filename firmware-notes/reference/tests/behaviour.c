/*
 * What the protocol's page promises of a fixture, tried on the core: exactly once, drops, chatter, holds, sequences,
 * edges, results in parts of time. Sections are those of the page.
 */
#include <stdio.h>
#include <string.h>

#include "bed.h"
#include "bytes.h"

#define SESSION 0x5A17C0DEu
#define BOOT 7u

enum { OPEN = 2, ARM, STOP, RESUME, STEP, BEAT, READ, SEQUENCE = 0x10, READ_EDGES = 0x14 };
enum { STATUS = 0x82, RESULT = 0x83, NACK = 0x84, EDGES = 0x94 };

static uint8_t got[600];

static void put32(uint8_t *at, uint32_t value) {
  for (int i = 0; i < 4; i++) {
    at[i] = (uint8_t)(value >> (8 * i));
  }
}

/* The next frame that was sent is of this type. */
static bool next_is(uint8_t type) {
  memset(got, 0, sizeof got);
  size_t length = bed_take(got);
  if (length == 0 || got[0] != type) {
    printf("wanted a frame %02x, got %02x\n", type, length == 0 ? 0 : got[0]);
    return false;
  }
  return true;
}

static const uint8_t *body(void) {
  return got + 5;
}

static void bare(uint8_t type) {
  bed_frame(type, SESSION, got, 0);
}

static void numbered(uint8_t type, uint32_t number) {
  uint8_t bytes[4];
  put32(bytes, number);
  bed_frame(type, SESSION, bytes, sizeof bytes);
}

/* Silence 1 s, 8 moves, 100 changes, rest 2 ms, hold 2 s, everything allowed and watched. */
static void open_as(uint32_t session, uint32_t boot, uint32_t follows) {
  uint8_t bytes[21] = {0};
  put32(bytes, boot);
  put32(bytes + 4, follows);
  bytes[8] = 1000 & 0xFF;
  bytes[9] = 1000 >> 8;
  bytes[10] = 8;
  bytes[11] = 100;
  bytes[13] = 2000 & 0xFF;
  bytes[14] = 2000 >> 8;
  put32(bytes + 15, 2000);
  bytes[19] = 0x7F; /* drive 7 is not allowed */
  bytes[20] = 0xFF;
  bed_frame(OPEN, session, bytes, sizeof bytes);
}

static void ready(void) {
  bed_begin(BOOT, "test", 1000);
  open_as(SESSION, BOOT, 0);
  bare(ARM);
  CHECK(next_is(STATUS) && body()[0] == 1);
  CHECK(next_is(STATUS) && body()[0] == 2);
}

static uint8_t *step_body(uint32_t number, uint8_t flags, uint8_t on, uint8_t expect) {
  static uint8_t bytes[26 + 1 + 8 * 6];
  memset(bytes, 0, sizeof bytes);
  put32(bytes, number);
  bytes[4] = flags;
  put32(bytes + 5, 100000);
  put32(bytes + 9, 150000);
  put32(bytes + 13, 20000);
  bytes[21] = on;
  bytes[22] = 0x7F;
  bytes[23] = expect;
  bytes[24] = 0xFF;
  return bytes;
}

static void step(uint32_t number, uint8_t flags, uint8_t on, uint8_t expect) {
  bed_frame(STEP, SESSION, step_body(number, flags, on, expect), 26);
}

static void toggle(uint64_t us, uint8_t lines) {
  bed_run_to(us);
  bed.lines ^= lines;
  bed_work();
}

static bool nacked(uint8_t reason, uint8_t type, uint16_t detail) {
  return next_is(NACK) && body()[0] == reason && body()[1] == type && get16(body() + 6) == detail;
}

static void exactly_once(void) {
  ready();
  int before = bed.switchings;
  step(0, 0, 1, 0);
  CHECK(bed.drives == 1 && bed.switchings == before + 1);
  step(0, 0, 1, 0); /* a repeat while it runs */
  CHECK(next_is(STATUS) && body()[0] == 3 && get32(body() + 7) == 1);
  bed_run_to(bed.now_us + 30000);
  CHECK(next_is(RESULT) && get32(body()) == 0 && get16(body() + 8) == 7);
  CHECK(get32(body() + 18) == 20000); /* quiet from the start */
  step(0, 0, 2, 0); /* a repeat, damaged or not: never run again */
  CHECK(next_is(STATUS) && bed.drives == 1 && bed.switchings == before + 1);
  step(2, 0, 2, 0);
  CHECK(nacked(5, STEP, 0));
  numbered(READ, 0);
  CHECK(next_is(RESULT) && get32(body()) == 0);
  numbered(BEAT, 2);
  CHECK(nacked(8, BEAT, 0));
  numbered(BEAT, 1);
  CHECK(next_is(STATUS) && get32(body() + 15) == 1);
  numbered(READ, 0);
  CHECK(next_is(STATUS));
}

static void slots_fill(void) {
  ready();
  for (uint32_t i = 0; i < 4; i++) {
    step(i, 0, (uint8_t)i, 1); /* never matches: watched to the end */
  }
  step(4, 0, 9, 0);
  CHECK(nacked(6, STEP, 0) && get32(body() + 2) == 4);
  bed_run_to(bed.now_us + 160000);
  CHECK(next_is(RESULT) && get32(body() + 18) == 150000 && get16(body() + 8) == 1);
  step(4, 0, 9, 0);
  CHECK(nacked(6, STEP, 0)); /* done, but not acknowledged */
  numbered(BEAT, 1);
  CHECK(next_is(STATUS));
  step(4, 0, 9, 0);
  CHECK(bed_take(got) == 0);
}

static void refusals(void) {
  ready();
  uint8_t *bytes = step_body(0, 0, 0, 0);
  bed_frame(STEP, SESSION + 1, bytes, 26);
  CHECK(nacked(3, STEP, 0));
  bed_frame(STEP, SESSION, bytes, 25);
  CHECK(nacked(2, STEP, 0));
  bed_frame(0x3F, SESSION + 1, bytes, 3);
  CHECK(nacked(1, 0x3F, 0));
  bytes[22] = 0x80;
  bed_frame(STEP, SESSION, bytes, 26);
  CHECK(nacked(7, STEP, 0));
  bytes = step_body(0, 0x10, 0, 0);
  bed_frame(STEP, SESSION, bytes, 26);
  CHECK(nacked(8, STEP, 4));
  bytes = step_body(0, 4, 0, 0);
  put32(bytes + 17, 150001);
  bed_frame(STEP, SESSION, bytes, 26);
  CHECK(nacked(8, STEP, 17));
  open_as(SESSION + 1, BOOT + 1, SESSION);
  CHECK(nacked(3, OPEN, 0));
  open_as(SESSION + 1, BOOT, 0);
  CHECK(nacked(3, OPEN, 0));
  open_as(SESSION, BOOT, 0); /* a repeat of the session in place */
  CHECK(next_is(STATUS) && body()[0] == 2);
  bare(STOP);
  CHECK(next_is(STATUS) && body()[0] == 0 && body()[1] == 1);
  bare(ARM);
  CHECK(nacked(4, ARM, 0));
  open_as(SESSION + 1, BOOT, SESSION);
  CHECK(next_is(STATUS) && body()[0] == 1 && body()[1] == 6);
}

static void silence_drops(void) {
  ready();
  uint64_t start_us = bed.now_us;
  step(0, 2, 1, 0); /* an audit: to the end of watching, whatever comes */
  bed_run_to(start_us + 160000);
  CHECK(next_is(RESULT) && get32(body() + 18) == 150000);
  bed_run_to(start_us + 999900);
  CHECK(bed.drives == 1);
  bed_run_to(start_us + 1000300);
  CHECK(bed.drives == 0);
  CHECK(next_is(STATUS) && body()[0] == 0 && body()[1] == 2);
}

static void hold_trips(void) {
  ready();
  uint64_t start_us = bed.now_us;
  step(0, 0, 1, 0);
  for (uint64_t us = 500000; us < 2000000; us += 500000) {
    bed_run_to(start_us + us);
    numbered(BEAT, 0);
  }
  bed_run_to(start_us + 1999900);
  CHECK(bed.drives == 1);
  bed_run_to(start_us + 2000300);
  CHECK(bed.drives == 0);
  CHECK(next_is(RESULT) && get16(body() + 8) == 7); /* long before */
  for (int i = 0; i < 3; i++) {
    CHECK(next_is(STATUS) && body()[0] == 2);
  }
  CHECK(next_is(STATUS) && body()[0] == 5 && body()[1] == 4);
  step(1, 0, 1, 0);
  CHECK(nacked(4, STEP, 0));
}

static void chatter_trips(bool after_the_step) {
  ready();
  uint64_t start_us = bed.now_us;
  step(0, after_the_step ? 0 : 2, 1, 0);
  if (after_the_step) {
    bed_run_to(start_us + 25000);
    CHECK(next_is(RESULT));
  }
  for (int i = 0; i < 8; i++) {
    CHECK(bed.drives == 1);
    toggle(start_us + 30000 + (uint64_t)i * 3000, 1 << 5);
  }
  CHECK(bed.drives == 0);
  if (!after_the_step) {
    CHECK(next_is(RESULT) && get16(body() + 8) == (16 | 2) && get32(body() + 18) == 51000);
    CHECK(body()[39] == 5 && get16(body() + 48) == 8 && body()[50] == 8);
  }
  CHECK(next_is(STATUS) && body()[0] == 5 && body()[1] == 3 && body()[2] == 5);
}

/* Bounce is many changes and one move; the hundredth change trips all the same. */
static void bounce_is_no_chatter(void) {
  ready();
  uint64_t start_us = bed.now_us;
  step(0, 2, 1, 0);
  for (int i = 0; i < 99; i++) {
    toggle(start_us + 10000 + (uint64_t)i * 100, 1);
  }
  CHECK(bed.drives == 1);
  toggle(start_us + 10000 + 9900, 1);
  CHECK(bed.drives == 0);
}

static void a_miss_holds(void) {
  ready();
  step(0, 1, 1, 1);
  step(1, 0, 2, 0);
  bed_run_to(bed.now_us + 200000);
  CHECK(next_is(RESULT) && get16(body() + 8) == (1 | 8));
  CHECK(next_is(STATUS) && body()[0] == 4 && bed.drives == 1);
  numbered(RESUME, 1);
  CHECK(next_is(STATUS) && body()[0] == 4);
  numbered(RESUME, 0);
  CHECK(next_is(STATUS) && bed.drives == 2);
}

/* Dwell at 50 ms: the level then, whatever comes later; a change 900 us before it is too near. */
static void dwells(void) {
  ready();
  uint64_t start_us = bed.now_us;
  uint8_t *bytes = step_body(0, 4, 1, 0);
  put32(bytes + 17, 50000);
  bed_frame(STEP, SESSION, bytes, 26);
  toggle(start_us + 10000, 1);
  toggle(start_us + 49100, 2);
  toggle(start_us + 51001, 4);
  toggle(start_us + 60000, 1);
  bed_run_to(start_us + 160000);
  CHECK(next_is(RESULT) && (get16(body() + 8) & 64) != 0);
  CHECK(body()[32] == 3 && body()[33] == 2 && body()[31] == 6);
  CHECK(get32(body() + 24) == 39100); /* the longest silence before a change */
}

/* What moves between two steps belongs to the one before. */
static void stirs(void) {
  ready();
  step(0, 0, 1, 0);
  bed_run_to(bed.now_us + 30000);
  CHECK(next_is(RESULT));
  toggle(bed.now_us + 100, 0x10);
  step(1, 0, 2, 0x10);
  bed_run_to(bed.now_us + 30000);
  CHECK(next_is(RESULT) && body()[35] == 0x10 && body()[30] == 0x10 && body()[36] == 0);
}

#ifdef TEST_EXTENDED
static void sequences(void) {
  ready();
  uint64_t start_us = bed.now_us;
  uint8_t *bytes = step_body(0, 8, 1, 1);
  bytes[26] = 2;
  put32(bytes + 27, 30000);
  bytes[31] = 2;
  bytes[32] = 0x7F;
  put32(bytes + 33, 60000);
  bytes[37] = 4;
  bytes[38] = 0x7F;
  bed_frame(SEQUENCE, SESSION, bytes, 27 + 12);
  step(1, 0, 1, 0);
  CHECK(nacked(6, STEP, 0));
  for (int i = 0; i < 7; i++) { /* seven moves before the first entry, seven after: no chatter */
    toggle(start_us + 1000 + (uint64_t)i * 4000, 1);
  }
  CHECK(bed.drives == 1);
  bed_run_to(start_us + 30200);
  CHECK(bed.drives == 2);
  for (int i = 0; i < 6; i++) {
    toggle(start_us + 31000 + (uint64_t)i * 4000, 1);
  }
  bed_run_to(start_us + 60200);
  CHECK(bed.drives == 4);
  bed_run_to(start_us + 90000);
  CHECK(next_is(RESULT) && get16(body() + 8) == 7);
  CHECK(get32(body() + 18) >= 80000 && get32(body() + 18) < 80100); /* quiet from the last entry */
  CHECK(get16(body() + 22) < 100 && body()[50] == 13);
  uint8_t wanted[6] = {0};
  wanted[4] = 12;
  bed_frame(READ_EDGES, SESSION, wanted, sizeof wanted);
  CHECK(next_is(EDGES) && get16(body() + 4) == 13 && get16(body() + 8) == 12 && body()[10] == 1);
  CHECK(get32(body() + 11) == 51000 && body()[15] == 0x80);
  step(1, 8, 1, 0);
  CHECK(nacked(6, STEP, 0)); /* edges are still held */
  numbered(BEAT, 1);
  CHECK(next_is(STATUS));
  bed_frame(READ_EDGES, SESSION, wanted, sizeof wanted);
  CHECK(next_is(STATUS));
}

static void bad_sequences(void) {
  ready();
  uint8_t *bytes = step_body(0, 0, 1, 1);
  bytes[26] = 1;
  put32(bytes + 27, 150000);
  bytes[32] = 0x7F;
  bed_frame(SEQUENCE, SESSION, bytes, 27 + 6);
  CHECK(nacked(8, SEQUENCE, 27));
  bytes[32] = 0x80;
  bed_frame(SEQUENCE, SESSION, bytes, 27 + 6);
  CHECK(nacked(7, SEQUENCE, 0));
  bed_frame(SEQUENCE, SESSION, bytes, 27 + 5);
  CHECK(nacked(2, SEQUENCE, 0));
}
#else
static void sequences(void) {
  ready();
  bed_frame(SEQUENCE, SESSION, step_body(0, 0, 1, 1), 27);
  CHECK(nacked(1, SEQUENCE, 0));
  step(0, 8, 1, 0);
  CHECK(nacked(8, STEP, 4));
}

static void bad_sequences(void) {}
#endif

/* A frame that was damaged on its way has no effect and is counted. */
static void damage(void) {
  ready();
  static const uint8_t noise[] = {0x05, 0x11, 0x22, 0x33, 0x44, 0x00, 0x00, 0x7F, 0x00};
  /* The page's ARM of this session with one bit of its check turned over. */
  static const uint8_t turned[] = {0x0A, 0x03, 0xDE, 0xC0, 0x17, 0x5A, 0x5B, 0xE9, 0x9B, 0x59, 0x00};
  bed_receive(noise, sizeof noise);
  bed_receive(turned, sizeof turned);
  CHECK(bed_take(got) == 0);
  numbered(BEAT, 0);
  CHECK(next_is(STATUS) && get32(body() + 31) == 3 && get32(body() + 27) == 3);
}

int main(void) {
  exactly_once();
  slots_fill();
  refusals();
  silence_drops();
  hold_trips();
  chatter_trips(false);
  chatter_trips(true);
  bounce_is_no_chatter();
  a_miss_holds();
  dwells();
  stirs();
  sequences();
  bad_sequences();
  damage();
  printf("behaviour: %s\n", bed_failures == 0 ? "as on the page" : "NOT as on the page");
  return bed_failures == 0 ? 0 : 1;
}
