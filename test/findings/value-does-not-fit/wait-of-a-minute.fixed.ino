const int seconds = 60;
void setup() { pinMode(9, OUTPUT); }
void loop() { analogWrite(9, 200); delay(seconds * 1000L); analogWrite(9, 10); delay(1000); }
