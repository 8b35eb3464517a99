void fast() { TCCR2B |= _BV(CS20); }
//=           ^^^^^^^^^^^^^^^^^^^ finding kept-bits
void slow() { TCCR2B |= _BV(CS22); }
//=           ^^^^^^^^^^^^^^^^^^^ finding kept-bits "CS20, left by an earlier line"
void setup() { pinMode(2, INPUT_PULLUP); }
void loop() {
    analogWrite(3, 60);
    if (digitalRead(2)) fast();
    else slow();
    delay(100);
}
