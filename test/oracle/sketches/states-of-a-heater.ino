// A state machine in loop reaches its fixed point.
enum State { IDLE, RAMP, HOLD, COOL };
State state = IDLE;
unsigned long since;
byte level;
void setup() { pinMode(11, OUTPUT); TCCR2A = _BV(COM2A1) | _BV(WGM21) | _BV(WGM20); TCCR2B = _BV(CS22); }
void loop() {
  switch (state) {
    case IDLE: OCR2A = 0; if (digitalRead(4)) { state = RAMP; level = 0; } break;
    case RAMP: level += 5; OCR2A = level; if (level >= 200) { state = HOLD; since = millis(); } break;
    case HOLD: OCR2A = 200; if (millis() - since > 5000) state = COOL; break;
    case COOL: OCR2A = 50; TCCR2B = _BV(CS21); if (!digitalRead(5)) { state = IDLE; TCCR2B = _BV(CS22); } break;
  }
  delay(20);
}
