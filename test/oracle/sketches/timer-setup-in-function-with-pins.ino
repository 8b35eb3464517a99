void startFan(byte pin, byte duty) {
  pinMode(pin, OUTPUT);
  if (pin == 9) TCCR1A |= (1 << COM1A1);
  else if (pin == 10) TCCR1A |= (1 << COM1B1);
  TCCR1B = (1 << WGM12) | (1 << CS10);
  if (pin == 9) OCR1A = duty; else OCR1B = duty;
}
void setup() {
  startFan(10, 40);
  startFan(9, 200);
}
void loop() {}
