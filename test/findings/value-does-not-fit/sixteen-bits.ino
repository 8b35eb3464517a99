#define FREQ 100
void setup() {
  pinMode(9, OUTPUT);
  TCCR1A = _BV(COM1A1) | _BV(WGM11);
  TCCR1B = _BV(WGM13) | _BV(WGM12) | _BV(CS10);
  ICR1 = F_CPU / FREQ - 1;
//=      ^^^^^^^^^^^^^^^^ finding value-does-not-fit "159999 does not fit into ICR1, which is 16 bits wide (0..65535): it becomes 28927"
//= fix "Write 19999 with prescaler 8: 100 Hz"
  OCR1A = 1000;
}
void loop() {}
