void setSpeed(byte speed) {
  byte keep = TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20));
  switch (speed) {
    case 0: TCCR2B = keep | _BV(CS20); break;
    case 1: TCCR2B = keep | _BV(CS21); break;
    default: TCCR2B = keep | _BV(CS22); break;
  }
}
void setup() { pinMode(3, OUTPUT); }
void loop() {
  setSpeed(digitalRead(4));
  analogWrite(3, 77);
  delay(500);
}
