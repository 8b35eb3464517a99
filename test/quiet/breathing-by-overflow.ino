// The beacon breathes: its duty moves on in the overflow interrupt of its own timer.
volatile uint8_t level = 1;
volatile int8_t step = 1;

ISR(TIMER2_OVF_vect) {
  static uint8_t n;
  if (++n < 4) return;
  n = 0;
  level += step;
  if (level == 254 || level == 1) step = -step;
  OCR2A = level;
}

void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = _BV(COM2A1) | _BV(WGM20);
  TCCR2B = _BV(CS22);
  OCR2A = 1;
  TIMSK2 = _BV(TOIE2);
}

void loop() {}
