// wants D9: 10 kHz
void setup() {}
void loop() {
    analogWrite(9, 30);
    analogWrite(9, 60);
}
