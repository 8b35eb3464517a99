// A click on D8 by tone, its lamp beside it; tempo by a knob.
int tempo() { return map(analogRead(A0), 0, 1023, 40, 208); }

void setup() { pinMode(13, OUTPUT); }

void loop() {
  static unsigned long next;
  if ((long)(millis() - next) >= 0) {
    next = millis() + 60000UL / tempo();
    tone(8, 1760, 15);
    digitalWrite(13, HIGH);
  }
  if (digitalRead(13) && (long)(millis() + 50 - next) > 0) digitalWrite(13, LOW);
}
