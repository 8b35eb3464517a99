#define PERIOD 100
int speed;
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(CS11);
  ICR1 = PERIOD;
}
void loop() { 
  for (speed = 0; speed <= 255; speed++) { OCR1A = map(speed, 0, 255, 0, PERIOD); delay(5); }
  analogWrite(9, map(analogRead(A1), 0, 1023, 0, 255)); delay(100);
//=              ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ finding duty-past-top "D9 counts to TOP 100: the values 101..254 all give one constant level, no pulse (154 of 256; at 0 and 255 anal"
}
