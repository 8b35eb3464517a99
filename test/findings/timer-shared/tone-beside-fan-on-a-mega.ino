// for pulsewright: board mega
void setup() { pinMode(10, OUTPUT); }
void loop() { analogWrite(10, 100); tone(22, 440); delay(100); noTone(22); delay(100); }
//=                                 ^^^^^^^^^^^^^ finding timer-shared "tone takes timer 2: PWM on D10 stops while it plays"
