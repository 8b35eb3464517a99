// wants D11: 1 kHz
// wants D3: 1 kHz
void setup() { pinMode(3, OUTPUT); pinMode(11, OUTPUT); }
void loop() { analogWrite(3, 60); analogWrite(11, 120); delay(20); }
