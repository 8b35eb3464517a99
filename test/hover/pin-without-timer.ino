void setup() { pinMode(13, OUTPUT); }
void loop() {
    digitalWrite(13, HIGH);
//= ^^^^^^^^^^^^ hover "PB5, no timer output"
    delay(100);
    digitalWrite(13, LOW);
    delay(100);
}
