void setup() {
    pinMode(9, OUTPUT);
    TCCR1B = TCCR1B | 1 & 0xF8;
//=          ^^^^^^^^^^^^^^^^^ finding and-before-or "0x03 (prescaler 64)"
//= fix "Clear the masked bits first, then set: (R & mask) | bits"
}
void loop() { analogWrite(9, 60); }
