// wants D3: 1 kHz within 970..1020 Hz
//= hint "✓ met"
void setup() {
    TCCR2B = (TCCR2B & ~(_BV(CS22) | _BV(CS21) | _BV(CS20))) | _BV(CS21) | _BV(CS20);
//= hint "≈ 980.4 Hz"
}
void loop() {
    analogWrite(3, 60);
//= hint "≈ 980.4 Hz  · 23.5 %"
}
