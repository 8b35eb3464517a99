// a weak hook that nobody defines, linkage blocks
extern "C" {
  void board_hook(void) __attribute__((weak));
  static uint8_t raw(void) { return 12; }
  uint8_t shared_level = 7;
}
extern "C" uint8_t scale(uint8_t v) { return v * 3; }
extern uint8_t shared_level;
void setup() {
  pinMode(11, OUTPUT);
  TCCR2A |= _BV(COM2A1);
  if (board_hook) board_hook();
  OCR2A = scale(raw()) + shared_level;
}
void loop() {}
