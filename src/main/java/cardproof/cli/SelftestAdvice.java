package cardproof.cli;

import cardproof.fixture.selftest.Trouble;

/** Where to look first, by what is wrong. */
final class SelftestAdvice {
  private SelftestAdvice() {}

  static String of(Trouble trouble) {
    return switch (trouble.kind()) {
      case DRIVES_DEAD ->
          "meter its output while it is on, then its driver chip, the chip's supply and the wire"
              + " from the board";
      case DRIVE_STUCK ->
          "meter its output with everything let go: a driver that is through, or a bridge to the"
              + " supply; use no card with it";
      case DRIVES_SWAPPED -> "the two wires between board, driver and connector are crossed";
      case DRIVES_BRIDGED -> "look for solder between the two outputs, at driver and connector";
      case WATCHES_DEAD ->
          "meter the voltage at its input while it is driven, then its divider, its threshold and"
              + " the wire to the board";
      case WATCH_STUCK -> "meter its input with everything let go: its pull-down, its threshold";
      case WATCHES_SWAPPED -> "the two wires between connector, input and board are crossed";
      case WATCHES_BRIDGED -> "look for solder between the two inputs, at connector and divider";
      case WATCH_PINS_BRIDGED -> "look for solder between the two wires from inputs to board";
      case WIRES_DEAD -> "the plug itself: its joint, its pin, and that nothing is at ground";
      case WIRE_STUCK -> "the plug itself: a bridge to the supply";
      case WIRES_SWAPPED -> "the plug itself: two wires in each other's place";
      case WIRES_BRIDGED -> "the plug itself: solder between two pins";
    };
  }
}
