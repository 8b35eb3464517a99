// for pulsewright: board mega
// wants D11: 38 kHz +-1 %, duty 30..50 %
void setup() { }
void loop() { analogWrite(11, 100); delay(10); analogWrite(11, 110); delay(10); }
