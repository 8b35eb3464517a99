// D4 by digitalWrite, D8 by its port, D7 by a routine.
ISR(TIMER1_COMPA_vect) {
    PIND = _BV(PIND7);
//= ^^^^ hover "D7: 49"
//= hint "≈ 497.0..503.1 Hz  · 49.4..50.6 %"
}
void setup() {
    pinMode(4, OUTPUT);
    DDRB |= _BV(DDB0);
    DDRD |= _BV(DDD7);
    TCCR1A = 0;
    TCCR1B = _BV(WGM12) | _BV(CS11);
    OCR1A = 1999;
//= hint "≈ 1.000 kHz interrupt"
    TIMSK1 = _BV(OCIE1A);
}
void loop() {
    PORTB ^= _BV(PORTB0);
//= ^^^^^ hover "D8: 0.99"
//= hint "≈ 1.000 Hz  · 50.0 %"
    digitalWrite(4, HIGH);
//= ^^^^^^^^^^^^ hover "D4: 1.99"
//= hint "≈ 2.000 Hz  · 40.0 %"
    delay(200);
    digitalWrite(4, LOW);
    delay(300);
}
