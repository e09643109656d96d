/* The short frames: HELLO_R, STATUS and NACK. */
#ifndef BENCH_REPLIES_H
#define BENCH_REPLIES_H

#include <stdint.h>

/* `host_minor`: the highest minor version that the host speaks. */
void reply_hello(uint32_t nonce, uint8_t host_minor);
void reply_status(void);
void reply_nack(uint32_t frame_session, uint8_t reason, uint8_t type, uint16_t detail);

#endif
