/* The board of the protocol's worked frames: 8 drives, 8 watches, 4 slots. */
#ifndef BENCH_TEST_BOARD_H
#define BENCH_TEST_BOARD_H

#define BOARD_DRIVES 8
#define BOARD_DRIVES_MOST BOARD_DRIVES
#define BOARD_WATCHES 8
#define BOARD_WATCHES_MOST BOARD_WATCHES
#define BOARD_SLOTS 4
#define BOARD_SLOTS_MOST BOARD_SLOTS
#define BOARD_CHANGES 16
#define BOARD_FRAME 128
#define BOARD_REPLY 512
#define BOARD_PERIOD_NS 3100u
#define BOARD_BLIND_US 30u
#define BOARD_TABLE
#define BOARD_TABLE_READ(at) (*(at))

#ifdef TEST_EXTENDED /* as the frames of version 1.1 have it; supply and sense are only said to be there */
#define FIRMWARE_MINOR 1u
#define BOARD_ENTRIES 8
#define BOARD_EDGES 1000
#define BOARD_CAPABILITIES 0x30u
#else
#define BOARD_ENTRIES 0
#define BOARD_EDGES 0
#define BOARD_CAPABILITIES 0u
#endif

#endif
