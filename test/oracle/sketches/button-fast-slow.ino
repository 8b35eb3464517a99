const byte button = 2;
void setup() {
  pinMode(button, INPUT_PULLUP);
  pinMode(10, OUTPUT);
  analogWrite(10, 30);
}
void loop() {
  if (digitalRead(button) == LOW) {
    TCCR1B = (TCCR1B & 0xF8) | 1;
  } else {
    TCCR1B = (TCCR1B & 0xF8) | 5;
  }
  delay(20);
}
