void setup() {}
void loop() {
    analogWrite(7, 100);
//= ^^^^^^^^^^^^^^^^^^^ finding pin-without-timer "D7" "D3, D5, D6, D9, D10 and D11"
    analogWrite(8, 255);
}
