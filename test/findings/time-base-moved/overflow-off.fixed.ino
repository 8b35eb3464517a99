unsigned long t;
void setup() { pinMode(13, OUTPUT); }
void loop() { if (millis() - t > 500) { t = millis(); digitalWrite(13, !digitalRead(13)); } }
