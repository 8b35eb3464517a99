void level(byte pin, int value) { analogWrite(pin, value); }
void level(byte pin, float part) { analogWrite(pin, (int)(part * 255)); }
void setup() {
  level(9, 100);
  level(10, 0.5f);
}
void loop() {}
