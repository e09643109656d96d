/* The simulated chip of the host port: its time, its lines, and the core running on it. */
#ifndef BENCH_HOST_FIXTURE_H
#define BENCH_HOST_FIXTURE_H

#include <stdbool.h>
#include <stdint.h>

#include "channel.h"

/* Starts the core as after a reset for this reason, with the next boot number. */
void fixture_reset(uint8_t cause);

/* Lets that much time pass, sweep by sweep. */
void fixture_run(uint64_t us);

/* Microseconds since the program started. */
uint64_t fixture_now_us(void);

bool fixture_drive_is_on(uint8_t drive);

/* The line to the host, and the time a byte takes on it, microseconds; 0 for none. */
extern struct channel fixture_wire;
extern uint32_t fixture_byte_us;

#endif
