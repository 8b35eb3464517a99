enum State { IDLE, WARM, HOT };
State state = IDLE;
void setup() {
  pinMode(6, OUTPUT);
}
void loop() {
  switch (state) {
    case IDLE: analogWrite(6, 0); state = WARM; break;
    case WARM: analogWrite(6, 90); state = HOT; break;
    case HOT: analogWrite(6, 255); state = IDLE; break;
  }
  delay(40);
}
