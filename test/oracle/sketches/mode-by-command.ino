// A mode set by command; what is not chosen does not run.
int mode;
void setup() { Serial.begin(9600); pinMode(3, OUTPUT); TCCR2A = _BV(COM2B1) | _BV(WGM20); }
void loop() {
  if (Serial.available()) { char c = Serial.read(); if (c >= '1' && c <= '3') mode = c - '0'; }
  if (mode == 2) TCCR2B = 3; else TCCR2B = 4;
  OCR2B = mode == 1 ? 20 : 90;
  delay(5);
}
