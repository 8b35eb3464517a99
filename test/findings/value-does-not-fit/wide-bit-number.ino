void setup() {
    TCCR1B = 1 << 20;
//=          ^^^^^^^ finding value-does-not-fit "shift by 20"
}
void loop() { analogWrite(9, 60); }
