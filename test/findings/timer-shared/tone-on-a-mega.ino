// for pulsewright: board mega
void setup() {}
void loop() {
    analogWrite(9, 40);
    tone(8, 440);
//= ^^^^^^^^^^^^ finding timer-shared "tone takes timer 2: PWM on D9"
    delay(500);
}
