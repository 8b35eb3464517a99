// wants D7: 1 kHz
void setup() {}
void loop() { digitalWrite(7, HIGH); delay(1); digitalWrite(7, LOW); delay(1); }
