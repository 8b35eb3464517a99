void setup() {
  pinMode(3, OUTPUT);
  bitClear(TCCR2B, CS22);
  bitSet(TCCR2B, CS21);
  bitWrite(TCCR2B, CS20, 1);
}
void loop() { analogWrite(3, 100); }
