ISR(TIMER1_OVF_vect) { TCNT1 = -1000; }
void setup() {
    DDRB = ~_BV(DDB0);
    TCCR1A = 0;
    TCCR1B = _BV(CS11);
    TIMSK1 = _BV(TOIE1);
}
void loop() {}
