// delay calls yield, which the sketch may have its own of.
volatile uint8_t turns;
void yield() {
  turns++;
  OCR2B = (turns & 1) ? 30 : 60;
}
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  OCR2B = 5;
}
void loop() { delay(20); }
