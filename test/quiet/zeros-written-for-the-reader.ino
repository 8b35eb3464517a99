// The whole field is spelled out, zeros included, on registers that were cleared before.
void setup() {
  pinMode(11, OUTPUT);
  TCCR2A = 0;
  TCCR2B = 0;
  TCCR2A |= (1 << COM2A1) | (0 << COM2A0) | (1 << WGM21) | (1 << WGM20);
  TCCR2B |= (0 << WGM22);
  TCCR2B |= (0 << CS22) | (1 << CS21) | (0 << CS20);
  OCR2A = 40;
}

void loop() {}
