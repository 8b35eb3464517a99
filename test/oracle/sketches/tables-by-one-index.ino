// Two tables by one index: four pairs, not sixteen.
const uint16_t tops[] = {1000, 2000, 4000, 8000};
const byte scales[] = {1, 2, 3, 4};
int at = 0;
void setup() { pinMode(9, OUTPUT); TCCR1A = _BV(COM1A0); }
void loop() {
  if (digitalRead(4)) at = (at + 1) & 3;
  TCCR1B = _BV(WGM12) | scales[at];
  OCR1A = tops[at];
  delay(50);
}
