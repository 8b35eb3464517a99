void setup() {
  pinMode(3, OUTPUT);
  TCCR2A = (1 << COM2B1) | (1 << WGM21) | (1 << WGM20);
  TCCR2B = (1 << CS21);
}
int v;
void loop() { v = analogRead(A0) / 4;
  if (v == 0) {
    TCCR2A &= ~(1 << COM2B1);
  } else {
    OCR2B = v;
    TCCR2A |= (1 << COM2B1);
  }
}
