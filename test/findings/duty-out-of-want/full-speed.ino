// wants D9: 490 Hz +-2 %, duty 20..100 %
void setup() {}
void loop() {
    analogWrite(9, analogRead(A0) / 4);
//= ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding duty-out-of-want "20"
}
