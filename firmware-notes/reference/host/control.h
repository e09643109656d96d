/* The second channel of the host port: text lines by which a test resets the fixture and sees its drives. */
#ifndef BENCH_HOST_CONTROL_H
#define BENCH_HOST_CONTROL_H

#include "channel.h"

/* Handles the lines that have come. */
void control_work(struct channel *control);

/* Says that a drive switched. */
void control_drive(uint8_t drive, bool on);

#endif
