unsigned long t;
void setup() { TIMSK0 = 0; pinMode(13, OUTPUT); }
//=            ^^^^^^^^^^ finding time-base-moved "Timer 0 is the core's clock, and this changes it: delay ends almost at once, millis() stands still, micros() j"
//= fix "Leave timer 0 as the core set it"
void loop() { if (millis() - t > 500) { t = millis(); digitalWrite(13, !digitalRead(13)); } }
