void setup() { pinMode(A0, OUTPUT); }
void loop() { for (int i = 0; i < 256; i++) { digitalWrite(A0, i < 128 ? LOW : HIGH); delay(5); } }
