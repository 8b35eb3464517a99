// wants D9: 25 kHz
const int fan = 9;
void setup() {
  Serial.begin(9600);
  TCCR1B = 0;
  TCCR1A = 0;
  TCNT1 = 0;
  OCR1A = 0;
  TCCR1B = bit(WGM13) | bit(WGM12);
  ICR1 = 639;
  TCCR1A = bit(COM1A1) | bit(WGM11);
  bitSet(TCCR1B, CS10);  // 25 kHz on D9: fast PWM, prescaler 1, TOP 639
  pinMode(9, OUTPUT);
}
void loop() {
  OCR1A = map(analogRead(A0) / 4, 0, 255, 0, 639);
  if (millis() > 10) OCR1A = 200;
  digitalWrite(4, digitalRead(5));
  delay(10);
}
