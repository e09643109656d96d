/* Nothing interrupts here. */
static void cli(void) {}
static void sei(void) {}
