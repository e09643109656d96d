#include "crc32.h"

#include "board.h"

/* Four bits at a time: 64 bytes of table, and two look-ups a byte. */
static const uint32_t table[16] BOARD_TABLE = {
    0x00000000u, 0x1DB71064u, 0x3B6E20C8u, 0x26D930ACu, 0x76DC4190u, 0x6B6B51F4u,
    0x4DB26158u, 0x5005713Cu, 0xEDB88320u, 0xF00F9344u, 0xD6D6A3E8u, 0xCB61B38Cu,
    0x9B64C2B0u, 0x86D3D2D4u, 0xA00AE278u, 0xBDBDF21Cu};

uint32_t crc32_add(uint32_t crc, uint8_t byte) {
  crc = (crc >> 4) ^ BOARD_TABLE_READ(&table[((uint8_t)crc ^ byte) & 15]);
  return (crc >> 4) ^ BOARD_TABLE_READ(&table[((uint8_t)crc ^ (byte >> 4)) & 15]);
}
