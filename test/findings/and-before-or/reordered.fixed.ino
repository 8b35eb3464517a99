void setup() {
    pinMode(9, OUTPUT);
    TCCR1B = (TCCR1B & 0xF8) | 1;
//=                            ^ finding bare-number
}
void loop() { analogWrite(9, 60); }
