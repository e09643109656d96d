/* What the core must know of the board it is built for; the build names the header with BOARD_HEADER. */
#ifndef BENCH_BOARD_H
#define BENCH_BOARD_H

#include <stdbool.h>
#include <stdint.h>

/*
 * A board header defines
 *   BOARD_DRIVES, BOARD_WATCHES, BOARD_SLOTS            how many there are (constants on a chip)
 *   BOARD_DRIVES_MOST, BOARD_WATCHES_MOST, BOARD_SLOTS_MOST   constants, the size of every array
 *   BOARD_CHANGES   samples that wait for digestion, a power of two up to 128
 *   BOARD_FRAME     longest frame taken, bytes before COBS
 *   BOARD_REPLY     longest frame sent, bytes before COBS
 *   BOARD_ENTRIES   most entries of a sequence, 0 for none
 *   BOARD_EDGES     most edges kept of one step, 0 for none
 *   BOARD_PERIOD_NS, BOARD_BLIND_US   sampling period, and the blind time to be expected
 *   BOARD_CAPABILITIES   bits of the protocol's section 8 beside sequences and edges
 *   BOARD_TABLE, BOARD_TABLE_READ(at)   how a constant table of 32-bit numbers is placed and read
 * and where samples are taken by an interrupt
 *   BOARD_FREEZE(), BOARD_THAW()   between which none is taken
 *   BOARD_PERIOD_TICKS             and how far apart they are
 */
#include BOARD_HEADER

#ifndef BOARD_FREEZE
#define BOARD_FREEZE()
#define BOARD_THAW()
#define BOARD_PERIOD_TICKS 0u
#endif

#ifndef FIRMWARE_MINOR
#define FIRMWARE_MINOR 0u
#endif
#define FIRMWARE_MAJOR 1u
#define FIRMWARE_PATCH 0u

#define DRIVE_BYTES ((uint8_t)(((BOARD_DRIVES) + 7) / 8))
#define WATCH_BYTES ((uint8_t)(((BOARD_WATCHES) + 7) / 8))
#define DRIVE_BYTES_MOST ((BOARD_DRIVES_MOST + 7) / 8)
#define WATCH_BYTES_MOST ((BOARD_WATCHES_MOST + 7) / 8)

#endif
