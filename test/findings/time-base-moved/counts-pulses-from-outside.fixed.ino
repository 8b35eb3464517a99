void setup() { pinMode(6, OUTPUT); }
void loop() { analogWrite(6, 20); delay(100); }
