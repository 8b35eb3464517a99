const byte fan = 9;
void setup() {
    pinMode(fan, OUTPUT);
    TCCR1A = _BV(WGM11);
    TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
    ICR1 = 79;
}
void loop() {
    analogWrite(fan, analogRead(A0) / 4);
//=                  ^^^^^^^^^^^^^^^^^^ finding duty-past-top "D9 counts to TOP 79" "80..254 all give one constant level"
//= fix "Scale the duty to 0..79 with map"
}
