/*
 * Asks a board's own code which pin each channel is: every drive is switched on alone, every pin is raised alone.
 * BOARD_SOURCE is the board's file; SHIFTED tells that channels are bits of shift registers.
 */
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include BOARD_SOURCE

static unsigned only(unsigned bits) { /* number of the one bit that is set, or 99 */
  unsigned at = 99;
  for (unsigned i = 0; i < 8; i++) {
    if (bits == _BV(i)) {
      at = i;
    }
  }
  return at;
}

static void drives(void) {
  for (unsigned drive = 0; drive < BOARD_DRIVES; drive++) {
    uint8_t on[BOARD_DRIVES / 8 + 1] = {0};
    uint16_t first, last;
#ifdef SHIFTED
    SPDR.count = 0;
#else
#define BEFORE(P) uint8_t before##P;
    EACH_PORT(BEFORE)
    port_drives(on, &first, &last);
#define KEEP(P) before##P = PORT##P;
    EACH_PORT(KEEP)
#endif
    on[drive / 8] = _BV(drive % 8);
    port_drives(on, &first, &last);
#ifdef SHIFTED
    for (unsigned i = 0; i < SPDR.count; i++) { /* what goes last stays in the first register */
      if (SPDR.sent[i] != 0) {
        printf("drive %u = register %u bit %u\n", drive, SPDR.count - i, only(SPDR.sent[i]));
      }
    }
#else
#define SHOW(P)                                                                                    \
  if (PORT##P != before##P) {                                                                      \
    printf("drive %u = P" #P "%u%s\n", drive, only(PORT##P ^ before##P),                           \
           (DDR##P & (PORT##P ^ before##P)) ? "" : " (no output)");                                \
  }
    EACH_PORT(SHOW)
#endif
  }
}

static void sample(uint8_t lines[3]) {
  memset(lines, 0, 3);
  SPDR.count = 0;
  board_sample(&lines[0], &lines[1], &lines[2]);
}

static void show(unsigned byte, unsigned bit, const char *port, unsigned pin) {
  uint8_t lines[3];
  sample(lines);
  for (unsigned watch = 0; watch < BOARD_WATCHES; watch++) {
    if (lines[watch / 8] & _BV(watch % 8)) {
#ifdef SHIFTED
      printf("watch %u = register %u bit %u\n", watch, byte + 1, bit);
#else
      printf("watch %u = P%s%u\n", watch, port, pin);
#endif
    }
  }
}

static void watches(void) {
#ifdef SHIFTED
  for (unsigned byte = 0; byte < 3; byte++) {
    for (unsigned bit = 0; bit < 8; bit++) {
      memset(SPDR.answers, 0, sizeof SPDR.answers);
      SPDR.answers[byte] = _BV(bit);
      show(byte, bit, "", 0);
    }
  }
#else
#define RAISE(P)                              \
  for (unsigned pin = 0; pin < 8; pin++) {    \
    PIN##P = _BV(pin);                        \
    show(0, 0, #P, pin);                      \
    PIN##P = 0;                               \
  }
  EACH_PORT(RAISE)
#endif
}

int main(void) {
  board_begin();
#define OUTPUTS(P) printf("outputs " #P " %u\n", DDR##P);
  EACH_PORT(OUTPUTS)
  drives();
  watches();
  return 0;
}
