bool ready = false;
void start() {
  if (ready) return;
  TCCR1B = (TCCR1B & ~7) | 4;
  ready = true;
}
void setup() {
  analogWrite(10, 60);
  start();
  TCCR1B = (TCCR1B & ~7) | 2;
  start();
}
void loop() {}
