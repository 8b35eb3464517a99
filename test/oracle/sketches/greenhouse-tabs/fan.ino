void beginFan() {
  pinMode(FAN_PIN, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS10);
  ICR1 = FAN_TOP;
}
void setFan(int percent) {
  OCR1A = (long)FAN_TOP * percent / 100;
}
