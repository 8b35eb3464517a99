// wants D3: fan-4wire
void setup() { pinMode(3, OUTPUT); }
void loop() { analogWrite(3, analogRead(A0) / 4); delay(50); }
