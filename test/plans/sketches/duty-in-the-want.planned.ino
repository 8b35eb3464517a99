// wants pump: 25 kHz within 21..28 kHz, duty 20..100 %, 100 steps
const byte pump = 10;

void setup() {
  pinMode(pump, OUTPUT);
  Serial.begin(115200);
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1B = 127;
  TCCR1B = _BV(WGM13) | _BV(WGM12);
  ICR1 = 639;
  TCCR1A = _BV(COM1B1) | _BV(WGM11);
  TCCR1B |= _BV(CS10);  // 25 kHz on D10: fast PWM, prescaler 1, TOP 639
}

void loop() {
  int knob = analogRead(A0);
  OCR1B = map(knob / 4, 0, 255, 127, 639);
  delay(20);
}
