#include "crc32.h"

#include "board.h"

/*
 * The usual table of 256 is linear: the entry of a byte is that of its low half, xor that of its high half. Two tables
 * of 16 do, with no shift by less than a byte, which an 8-bit chip would have to loop for.
 */
static const uint32_t low_half[16] BOARD_TABLE = {
    0x00000000u, 0x77073096u, 0xEE0E612Cu, 0x990951BAu, 0x076DC419u, 0x706AF48Fu,
    0xE963A535u, 0x9E6495A3u, 0x0EDB8832u, 0x79DCB8A4u, 0xE0D5E91Eu, 0x97D2D988u,
    0x09B64C2Bu, 0x7EB17CBDu, 0xE7B82D07u, 0x90BF1D91u};
static const uint32_t high_half[16] BOARD_TABLE = {
    0x00000000u, 0x1DB71064u, 0x3B6E20C8u, 0x26D930ACu, 0x76DC4190u, 0x6B6B51F4u,
    0x4DB26158u, 0x5005713Cu, 0xEDB88320u, 0xF00F9344u, 0xD6D6A3E8u, 0xCB61B38Cu,
    0x9B64C2B0u, 0x86D3D2D4u, 0xA00AE278u, 0xBDBDF21Cu};

uint32_t crc32_add(uint32_t crc, uint8_t byte) {
  uint8_t index = (uint8_t)crc ^ byte;
  return (crc >> 8) ^ BOARD_TABLE_READ(&low_half[index & 15]) ^
         BOARD_TABLE_READ(&high_half[index >> 4]);
}
