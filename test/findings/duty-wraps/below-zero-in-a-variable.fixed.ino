void setup() { pinMode(5, OUTPUT); }
void loop() { int reading = analogRead(A2); analogWrite(5, constrain(reading - 100, 0, 255)); delay(10); }
