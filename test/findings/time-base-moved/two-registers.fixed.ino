void setup() {
  pinMode(6, OUTPUT);
  TCCR0A = _BV(COM0A1) | _BV(WGM01) | _BV(WGM00);   // phase correct
//=                                                 ^^^^^^^^^^^^^^^^ finding comment-disagrees "The comment says phase correct PWM, but timer 0 runs in fast PWM with TOP 255"
  OCR0A = 100;
}
void loop() { digitalWrite(4, HIGH); delay(10); digitalWrite(4, LOW); delay(10); }
