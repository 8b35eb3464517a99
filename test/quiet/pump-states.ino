enum State { IDLE, FILLING, DRAINING };
State state = IDLE;
void setup() {
  pinMode(5, OUTPUT);
  pinMode(2, INPUT_PULLUP);
}
void loop() {
  switch (state) {
    case IDLE:
      analogWrite(5, 0);
      if (digitalRead(2) == LOW) state = FILLING;
      break;
    case FILLING:
      analogWrite(5, 200);
      if (analogRead(A1) > 700) state = DRAINING;
      break;
    case DRAINING:
      analogWrite(5, 255);
      delay(2000);
      state = IDLE;
      break;
  }
}
