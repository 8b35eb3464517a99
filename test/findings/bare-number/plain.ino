void setup() {
    pinMode(3, OUTPUT);
    TCCR2B = 0x03;
//=          ^^^^ finding bare-number "0x03 sets CS21 and CS20 of TCCR2B (prescaler 32)"
//= fix "Write the bits by name, under a mask"
}
void loop() { analogWrite(3, 60); }
