// Lamp dimmer, all registers as plain numbers copied from a note.
void setup() {
  DDRD |= 0x08;
  TCCR2A = 35;
  TCCR2B = 12;
  OCR2A = 124;
  OCR2B = 30;
}
void loop() {}
