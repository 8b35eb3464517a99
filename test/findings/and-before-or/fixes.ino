void setup() {
    pinMode(3, OUTPUT);
    TCCR2B = TCCR2B | _BV(CS21) & ~_BV(CS22);
//=          ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding and-before-or "0x06 (prescaler 256)" "0x02 (prescaler 8)"
//= fix "Work from left to right: (R | bits) & mask"
}
void loop() { analogWrite(3, 60); }
