void setup() { pinMode(3, OUTPUT); TCCR2B |= 0; TCCR2B &= 0xFF; TCCR2B |= (0 << CS22) | (0 << CS21); }
//=                                ^^^^^^^^^^^ finding no-effect "ORing 0 changes nothing: TCCR2B stays as before"
//=                                                             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding no-effect "ORing 0 changes nothing: CS22 and CS21 of TCCR2B stay as before"
void loop() { analogWrite(3, 20); }
