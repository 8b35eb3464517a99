void setup() {}
void loop() {
    analogWrite(3, analogRead(A0) / 2);
//=                ^^^^^^^^^^^^^^^^^^ finding duty-wraps "0..511"
    analogWrite(11, analogRead(A1) / 4 - 20);
//=                 ^^^^^^^^^^^^^^^^^^^^^^^ finding duty-wraps "-20..235"
}
