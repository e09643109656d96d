/*
 * The one frame that is being sent: filled in whole, then its check is computed and it is put on the line
 * in COBS, one byte each time frame_out_work is called.
 */
#ifndef BENCH_FRAME_OUT_H
#define BENCH_FRAME_OUT_H

#include "board.h"

extern bool frame_out_busy;

/* Starts a frame; the one before must have gone out. */
void frame_out_start(uint8_t type, uint32_t session);
void frame_out_8(uint8_t value);
void frame_out_16(uint16_t value);
void frame_out_32(uint32_t value);
void frame_out_set(const uint8_t *set, uint8_t bytes);

/* How many more bytes the frame takes. */
uint16_t frame_out_room(void);
void frame_out_finish(void);

/* Does a little of what is left to do. */
void frame_out_work(void);

#endif
