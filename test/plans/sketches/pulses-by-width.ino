// wants D9: pulse 1000..2000 us every 20 ms
void setup() {}
void loop() { analogWrite(9, analogRead(A0) / 4); delay(20); }
