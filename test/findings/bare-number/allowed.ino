void setup() {
    pinMode(3, OUTPUT);
    // for pulsewright: allow bare-number because the values come from a table
    TCCR2B = 0x03;
    TCCR2B = 0x04;  // for pulsewright: allow bare-number
}
void loop() { analogWrite(3, 60); }
