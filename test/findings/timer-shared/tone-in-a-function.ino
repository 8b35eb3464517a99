#define BUZZER 8
#define LAMP 11
void beep() { tone(BUZZER, 2000, 100); }
//=           ^^^^^^^^^^^^^^^^^^^^^^^ finding timer-shared "tone takes timer 2: PWM on D11 stops while it plays"
void setup() { pinMode(LAMP, OUTPUT); }
void loop() {
  analogWrite(LAMP, analogRead(A1) >> 2);
  if (digitalRead(2) == LOW) beep();
}
