// Greenhouse fan, 25 kHz on pin 9 with timer 1, phase correct, TOP in ICR1.
const byte FAN = 9;
void setup() {
  pinMode(FAN, OUTPUT);
  TCCR1A = 0x82;
  TCCR1B = 0x11;
  ICR1 = 320;
  OCR1A = 160;
}
void loop() {}
