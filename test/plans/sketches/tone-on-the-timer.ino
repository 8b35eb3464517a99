// wants D3: 1 kHz
void setup() { tone(8, 440); }
void loop() { analogWrite(3, 60); delay(20); }
