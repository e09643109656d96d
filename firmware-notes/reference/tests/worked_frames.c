/*
 * The worked frames of the protocol, read from its page: what the host sends goes in, and what the fixture answers has
 * to come out byte for byte, from a run of the core in which just that happens.
 */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bed.h"

#define START_US 1234567u

static char page[200000];

static void read_page(const char *path) {
  FILE *file = fopen(path, "r");
  if (file == NULL) {
    perror(path);
    exit(2);
  }
  page[fread(page, 1, sizeof page - 1, file)] = '\0';
  fclose(file);
}

/* The bytes of the block `line` under the bold name; the program ends where there are none. */
static size_t frame(const char *name, uint8_t *bytes) {
  char title[64];
  size_t count = 0;
  snprintf(title, sizeof title, "\n**%s**", name);
  const char *at = strstr(page, title);
  at = at == NULL ? NULL : strstr(at, "    line  ");
  for (at = at == NULL ? "" : at + 10; *at != '\0';) {
    unsigned value;
    if (sscanf(at, "%2x", &value) == 1) {
      bytes[count++] = (uint8_t)value;
      at += 2;
    }
    if (*at == ' ') {
      at++;
    } else if (strncmp(at, "\n          ", 11) == 0) {
      at += 11;
    } else {
      break;
    }
  }
  if (count == 0) {
    printf("no worked frame %s on the page\n", name);
    exit(2);
  }
  return count;
}

static void send(const char *name) {
  uint8_t bytes[600];
  size_t count = frame(name, bytes);
  bed_receive(bytes, count);
}

/* The frame that was sent last is this one. */
static void expect(const char *name) {
  uint8_t bytes[600];
  size_t count = frame(name, bytes);
  if (bed.sent < count || memcmp(bed.out + bed.sent - count, bytes, count) != 0) {
    printf("%s did not come out as on the page, but (the last %zu bytes)\n ", name, count);
    for (size_t i = bed.sent < count ? 0 : bed.sent - count; i < bed.sent; i++) {
      printf(" %02x", bed.out[i]);
    }
    printf("\n");
    bed_failures++;
  }
}

static void toggle(uint64_t us, uint8_t watch) {
  bed_run_to(us);
  bed.lines ^= (uint8_t)(1u << watch);
  bed_work();
}

/* A session with the step of the page. */
static void first_step(void) {
  static const struct {
    uint16_t at_us;
    uint8_t watch;
  } edges[] = {{15100, 1}, {15200, 3}, {15300, 3}, {15400, 1},
               {15500, 3}, {15600, 3}, {15700, 1}, {33000, 3}};
  bed.skew_ticks = 8;
  send("OPEN");
  send("ARM");
  bed_run_to(START_US);
  send("STEP");
  for (size_t i = 0; i < sizeof edges / sizeof edges[0]; i++) {
    toggle(START_US + edges[i].at_us, edges[i].watch);
  }
  bed_run_to(START_US + 98000 + 100);
  bed_work();
}

#ifdef TEST_EXTENDED
static void sequence(void) {
  uint64_t start_us = 1500000;
  toggle(1400100, 1); /* both lines go back */
  toggle(1400200, 3);
  bed_run_to(start_us);
  send("SEQUENCE");
  toggle(start_us + 35100, 1);
  toggle(start_us + 35150, 3);
  toggle(start_us + 35600, 3);
  bed_run_to(start_us + 500000);
  send("READ_EDGES");
  expect("EDGES");
  CHECK(bed.drives == 1);
}
#endif

int main(int count, char **arguments) {
  if (count != 2) {
    printf("usage: %s protocol.md\n", arguments[0]);
    return 2;
  }
  read_page(arguments[1]);
  bed_begin(0x0A0B0C0Du, "Gull Point", 1200000);
#ifdef TEST_EXTENDED
  uint8_t hello[] = {1, 1};
  bed_frame(1, 0x11223344u, hello, sizeof hello);
  expect("HELLO_R_1");
#else
  send("HELLO");
  expect("HELLO_R");
#endif
  first_step();
  expect("RESULT");
  bed_run_to(1400000);
  send("BEAT");
  expect("STATUS");
#ifdef TEST_EXTENDED
  sequence();
#endif
  printf("worked frames: %s\n", bed_failures == 0 ? "all as on the page" : "NOT as on the page");
  return bed_failures == 0 ? 0 : 1;
}
