package cardproof.run;

/** What a reset cause of HELLO_R (protocol.md, section 5) means at the bench. */
record ResetWords(String cause, String next) {
  static ResetWords of(int cause) {
    return switch (cause) {
      case 1 ->
          new ResetWords(
              "its power was gone and came back",
              "Look for a loose USB plug, a hub that switches its ports off, or a board fed from the"
                  + " card's supply");
      case 2 ->
          new ResetWords(
              "its reset was pressed or pulled",
              "Keep off the button, see that no other program opens this port, and keep coil leads"
                  + " away from the reset pin");
      case 3 ->
          new ResetWords(
              "brown-out: its own supply dipped",
              "Feed the board from another supply than the coils, and look at its ground lead and at"
                  + " what the vector switches at once");
      case 4 ->
          new ResetWords(
              "watchdog: its program hung",
              "Its firmware is at fault or a coil's spike has upset it: see that every coil has its"
                  + " diode, and load the firmware anew when it happens again");
      case 5 ->
          new ResetWords(
              "its own program asked for it",
              "See that nobody is loading firmware onto it, then look into that firmware's notes");
      default ->
          new ResetWords("it does not say why", "Look for a supply that dips or a loose USB plug");
    };
  }
}
