// A switch over a mode that a button steps: the set of frequencies.
byte mode = 0;
void apply() {
  switch (mode) {
    case 0: TCCR2B = (TCCR2B & 0xF8) | 1; break;
    case 1: TCCR2B = (TCCR2B & 0xF8) | 3; break;
    case 2: TCCR2B = (TCCR2B & 0xF8) | 5; break;
    default: TCCR2B = (TCCR2B & 0xF8) | 7;
  }
}
void setup() { pinMode(3, OUTPUT); TCCR2A = _BV(COM2B1) | _BV(WGM21) | _BV(WGM20); OCR2B = 100; }
void loop() {
  if (digitalRead(4) == LOW) { mode++; if (mode > 3) mode = 0; apply(); delay(200); }
}
