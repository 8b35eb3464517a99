// wants D5: 7.8 kHz within 7..8 kHz
unsigned long last;
byte duty;
void setup() {
  pinMode(5, OUTPUT);
  pinMode(6, OUTPUT);
  TCCR0B = (TCCR0B & 0b11111000) | 2;   // prescaler 8
}
void loop() {
  if (millis() - last > 1000) { last = millis(); duty += 10; analogWrite(5, duty); }
  analogWrite(6, 200);
}
