/* Little-endian numbers in frames, and sets of channels. */
#ifndef BENCH_BYTES_H
#define BENCH_BYTES_H

#include <stdbool.h>
#include <stdint.h>

static inline uint16_t get16(const uint8_t *at) {
  return (uint16_t)(at[0] | (uint16_t)((uint16_t)at[1] << 8));
}

static inline uint32_t get32(const uint8_t *at) {
  return (uint32_t)get16(at) | (uint32_t)get16(at + 2) << 16;
}

static inline void copy_set(uint8_t *to, const uint8_t *from, uint8_t bytes) {
  for (uint8_t i = 0; i < bytes; i++) {
    to[i] = from[i];
  }
}

static inline void clear_set(uint8_t *set, uint8_t bytes) {
  for (uint8_t i = 0; i < bytes; i++) {
    set[i] = 0;
  }
}

/* True when the set has bits at or beyond `channels`, which the protocol wants to be 0. */
static inline bool beyond(const uint8_t *set, uint8_t channels) {
  uint8_t rest = channels & 7;
  return rest != 0 && (set[channels >> 3] >> rest) != 0;
}

static inline bool in_set(const uint8_t *set, uint8_t channel) {
  return ((set[channel >> 3] >> (channel & 7)) & 1) != 0;
}

#endif
