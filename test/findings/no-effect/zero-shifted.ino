void setup() {
    TCCR2B |= (0 << CS22) | (0 << CS21);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding no-effect "CS22 and CS21 of TCCR2B stay as before"
}
void loop() { analogWrite(3, 60); }
