/* What the core asks of the chip it runs on. */
#ifndef BENCH_PORT_H
#define BENCH_PORT_H

#include "board.h"

/*
 * Samples every watch into the change ring and moves a received byte, if there is one, to where port_receive
 * finds it, setting bench_work. Called often, also from inside longer work, so that the longest time between two samples stays short.
 */
void port_look(void);

/* Switches every drive, in one go, and says at which tick the first and the last of them had switched. */
void port_drives(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick);

/* Releases every drive at once. */
void port_release(void);

/* Takes a received byte; false when there is none. */
bool port_receive(uint8_t *byte);

/* True when port_send will take a byte without waiting. */
bool port_can_send(void);

void port_send(uint8_t byte);

/* Who the board is: filled in by the port before bench_begin. */
struct identity {
  uint8_t reset_cause; /* 0 unknown, 1 power on, 2 reset pin, 3 brown-out, 4 watchdog, 5 software */
  uint32_t boot;
  uint8_t id[8];
  const char *name; /* printable ASCII, at most 31 */
};

extern struct identity identity;

#endif
