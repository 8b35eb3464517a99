void setup() {
    TCCR2B &= (1 << CS22);
//= ^^^^^^^^^^^^^^^^^^^^^ finding odd-operator "clears every other bit"
    TIMSK2 |= ~(1 << TOIE2);
//= ^^^^^^^^^^^^^^^^^^^^^^^ finding odd-operator "sets every other bit"
    TCCR1B |= CS11;
//= ^^^^^^^^^^^^^^ finding odd-operator "CS11 is the number of a bit, 1, not its mask 0x02"
    delay(10 ^ 3);
//=       ^^^^^^ finding odd-operator "10 ^ 3 is the exclusive or" "9"
}
void loop() { analogWrite(9, 60); analogWrite(3, 60); }
