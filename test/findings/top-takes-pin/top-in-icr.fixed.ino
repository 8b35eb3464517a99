void setup() {
  pinMode(9, OUTPUT);
  pinMode(10, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(COM1B1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS11);
  ICR1 = 1000;
  OCR1B = 300;
}
void loop() {
  OCR1A = analogRead(A0) + 1;
//=       ^^^^^^^^^^^^^^^^^^ finding duty-past-top "D9 counts to TOP 1000: the values 1001..1024 all give one constant level, no pulse"
  delay(20);
}
