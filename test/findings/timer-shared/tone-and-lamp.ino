void setup() {}
void loop() {
    analogWrite(3, 40);
    tone(8, 440);
//= ^^^^^^^^^^^^ finding timer-shared "tone takes timer 2: PWM on D3 stops while it plays"
    delay(500);
    noTone(8);
    delay(500);
}
