/* The host port: as many channels and slots as the command line says. */
#ifndef BENCH_HOST_BOARD_H
#define BENCH_HOST_BOARD_H

#include <stdint.h>

struct host_board {
  uint8_t drives;
  uint8_t watches;
  uint8_t slots;
  uint32_t capabilities;
  uint32_t period_us;
};

extern struct host_board host_board;

#define BOARD_DRIVES (host_board.drives)
#define BOARD_DRIVES_MOST 255
#define BOARD_WATCHES (host_board.watches)
#define BOARD_WATCHES_MOST 128
#define BOARD_SLOTS (host_board.slots)
#define BOARD_SLOTS_MOST 16
#define BOARD_CHANGES 64
#define BOARD_FRAME 512
#define BOARD_REPLY 512
#define BOARD_ENTRIES 16
#define BOARD_EDGES 1024
#define BOARD_PERIOD_NS (host_board.period_us * 1000u)
#define BOARD_BLIND_US ((uint16_t)host_board.period_us)
#define BOARD_CAPABILITIES (host_board.capabilities)
#define BOARD_TABLE
#define BOARD_TABLE_READ(at) (*(at))

#endif
