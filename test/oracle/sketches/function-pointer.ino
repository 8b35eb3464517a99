void low() { analogWrite(9, 30); }
void high() { analogWrite(9, 220); }
void (*actions[])() = { low, high };
byte which = 0;
void setup() {}
void loop() {
  actions[which]();
  which ^= 1;
  delay(15);
}
