int readings[4];
byte slot = 0;
void setup() { pinMode(5, OUTPUT); }
void loop() {
  readings[slot] = analogRead(A3);
  slot = (slot + 1) % 4;
  int sum = 0;
  for (byte i = 0; i < 4; i++) sum += readings[i];
  analogWrite(5, sum / 16);
  delay(8);
}
