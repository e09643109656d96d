/* A test bed for the core: time, lines and bytes are what the test says. */
#ifndef BENCH_TEST_BED_H
#define BENCH_TEST_BED_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define BED_BYTES 65536

struct bed {
  uint64_t now_us;
  uint8_t lines;
  uint16_t skew_ticks; /* of every switching */
  uint8_t drives;
  int switchings;
  size_t sent;
  uint8_t out[BED_BYTES]; /* everything that was sent */
};

extern struct bed bed;
extern int bed_failures;

/* Starts the core at this time after its reset. */
void bed_begin(uint32_t boot, const char *name, uint64_t now_us);

/* Lets the core do all it has to do now, then puts these bytes on its line and lets it do what comes of them. */
void bed_work(void);
void bed_receive(const uint8_t *bytes, size_t count);

/* Runs to that time, with a sample every 29 us at the most and one at the end. */
void bed_run_to(uint64_t us);

/* A frame of the host, coded and sent. */
void bed_frame(uint8_t type, uint32_t session, const uint8_t *body, size_t length);

/* Takes the oldest frame that was sent: its plain bytes without the check. 0 where there is none. */
size_t bed_take(uint8_t *plain);

void bed_check(bool well, const char *what, int line);
#define CHECK(what) bed_check(what, #what, __LINE__)

#endif
