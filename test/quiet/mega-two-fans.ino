// for pulsewright: board mega
// wants D5: 25 kHz +-1 %
// wants D6: 25 kHz +-1 %
void setup() {
  pinMode(5, OUTPUT);
  pinMode(6, OUTPUT);
  TCCR3A = _BV(COM3A1) | _BV(WGM31);
  TCCR3B = _BV(WGM33) | _BV(WGM32) | _BV(CS30);
  ICR3 = 639;
  OCR3A = 320;
  TCCR4A = _BV(COM4A1) | _BV(WGM41);
  TCCR4B = _BV(WGM43) | _BV(WGM42) | _BV(CS40);
  ICR4 = 639;
  OCR4A = 160;
}

void loop() {}
