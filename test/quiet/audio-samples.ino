// Samples at 8 kHz on D11: carrier 62.5 kHz from timer 2, samples from timer 1.
const uint8_t sine[16] PROGMEM = {128, 176, 218, 245, 255, 245, 218, 176, 128, 79, 37, 10, 1, 10, 37, 79};
volatile uint8_t at;

ISR(TIMER1_COMPA_vect) {
  OCR2A = pgm_read_byte(&sine[at & 15]);
  at++;
}

void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(WGM21) | _BV(WGM20);
  TCCR2B = _BV(CS20);
  TCCR1A = 0;
  TCCR1B = _BV(WGM12) | _BV(CS10);
  OCR1A = F_CPU / 8000 - 1;
  TIMSK1 = _BV(OCIE1A);
}

void loop() {}
