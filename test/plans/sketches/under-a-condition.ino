// wants D3: 31 kHz +-2 %
void setup() {
  pinMode(3, OUTPUT);
  if (digitalRead(4)) TCCR2B = 1;
  else { TCCR2B = 2; }
}
void loop() { if (digitalRead(7) == HIGH) analogWrite(3, 200); else analogWrite(3, 0); delay(10); }
