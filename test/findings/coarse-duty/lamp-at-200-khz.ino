// wants D10: 200 kHz +-1 %, 256 steps
void setup() {
    pinMode(10, OUTPUT);
    TCCR1A = _BV(COM1B1) | _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
    ICR1 = 79;
//= ^^^^^^^^^ finding coarse-duty "D10 has 80 duty steps (TOP 79), 256 are wanted"
    OCR1B = 40;
}
void loop() {}
