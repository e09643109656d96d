/* CRC-32 of ITU-T V.42 and RFC 1952, a byte at a time. */
#ifndef BENCH_CRC32_H
#define BENCH_CRC32_H

#include <stdint.h>

#define CRC32_START 0xFFFFFFFFu
/* What is left when a message and its own check have gone through (common knowledge of this polynomial). */
#define CRC32_RESIDUE 0xDEBB20E3u

uint32_t crc32_add(uint32_t crc, uint8_t byte);

#endif
