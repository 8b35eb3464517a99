// 62.5 kHz on pin 3 feeds a low-pass filter; samples at 8 kHz.
volatile uint8_t phase;
const uint8_t wave[16] = {128, 176, 218, 245, 255, 245, 218, 176, 128, 79, 37, 10, 1, 10, 37, 79};
ISR(TIMER1_COMPA_vect) {
  phase = (phase + 1) & 15;
  OCR2B = wave[phase];
}
void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS20);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS10);
  OCR1A = F_CPU / 8000 - 1;
  TIMSK1 = _BV(OCIE1A);
}
void loop() {}
