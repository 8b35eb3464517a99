void fast() {
  // wants D9: 2 kHz
  TCCR1B = (TCCR1B & 0xF8) | _BV(CS10);
  delay(1000);
}
void setup() { pinMode(9, OUTPUT); analogWrite(9, 100); }
void loop() { fast(); }
