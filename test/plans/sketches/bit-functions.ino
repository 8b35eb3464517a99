// wants D9: 25 kHz
const int fan = 9;
void setup() {
  Serial.begin(9600);
  TCCR1B = TCCR1B & 0xF8 | 1;
  bitSet(TCCR1A, COM1A1);
}
void loop() {
  analogWrite(fan, analogRead(A0) / 4);
  if (millis() > 10) OCR1A = 80;
  digitalWrite(4, digitalRead(5));
  delay(10);
}
